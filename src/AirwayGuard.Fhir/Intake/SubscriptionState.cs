namespace AirwayGuard.Fhir.Intake;

/// <summary>What a server says of a Subscription.</summary>
public enum SubscriptionState
{
    /// <summary>Nobody can say now.</summary>
    Unknown,
    Requested,
    Active,

    /// <summary>In error or off.</summary>
    Stopped,

    /// <summary>Not there any more.</summary>
    Gone,
}

/// <summary>What became of writing a Subscription over.</summary>
public enum SubscriptionWrite
{
    /// <summary>Nobody can say now.</summary>
    Unknown,
    Done,

    /// <summary>The server does not take it, or has none to write over.</summary>
    Refused,
}

/// <param name="Id">Null where the server did not accept it, or did not say its id.</param>
/// <param name="IsRefused">It does not take such a Subscription: asking sooner changes nothing.</param>
public sealed record SubscriptionMade(string? Id, bool IsRefused);
