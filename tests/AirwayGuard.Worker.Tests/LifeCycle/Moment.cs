namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>When in a finding's life a person acts.</summary>
public enum Moment : byte
{
    /// <summary>An amendment is decided and not sent yet.</summary>
    BeforeSent,
    Sent,
    Amended,
    Cleared,

    /// <summary>The clearing was taken back: the same Flag stands again.</summary>
    Reopened,
    Withdrawn,
}
