namespace AirwayGuard.TestKit.Simulation;

/// <summary>What becomes of one call to a port.</summary>
internal enum Fate
{
    Proceed,

    /// <summary>The process ends before the call is made.</summary>
    EndBefore,

    /// <summary>The process ends once the call is done, before its answer is seen.</summary>
    EndAfter,

    /// <summary>HTTP only: the request never reaches the server, and no answer comes.</summary>
    LostBefore,

    /// <summary>HTTP only: the server did it, and no answer comes.</summary>
    LostAfter,

    /// <summary>HTTP only: 500, and nothing is done.</summary>
    ServerError,

    /// <summary>HTTP only: 500, though it is done.</summary>
    ServerErrorAfter,

    /// <summary>HTTP only: 429 with Retry-After, and nothing is done.</summary>
    TooMany,
}

/// <summary>What becomes of one notice of the server.</summary>
internal enum NoticeFate
{
    Delivered, Dropped, Doubled, HeldBack, Empty, Refused,
}
