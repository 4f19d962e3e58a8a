namespace AirwayGuard.TestKit.Ledger;

/// <summary>A clock that stands where it is put.</summary>
public sealed class SetClock(DateTimeOffset now) : TimeProvider
{
    public DateTimeOffset Now { get; set; } = now;

    public override DateTimeOffset GetUtcNow() => Now;
}
