namespace AirwayGuard.TestKit.Simulation;

/// <summary>What becomes of one notice of the server.</summary>
internal enum NoticeFate
{
    Delivered,

    /// <summary>It is taken on the way and never comes.</summary>
    Dropped,

    Doubled,

    /// <summary>It comes later, after newer ones perhaps.</summary>
    HeldBack,

    /// <summary>It comes when its time is over, by up to ten minutes.</summary>
    Delayed,

    /// <summary>It has no body.</summary>
    Empty,

    /// <summary>Whoever stands before us answers 500; the server tries again.</summary>
    Refused,
}
