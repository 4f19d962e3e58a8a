namespace AirwayGuard.Sandbox.Tests;

/// <summary>A clock that stands still until it is moved.</summary>
internal sealed class ManualClock : TimeProvider
{
    private DateTimeOffset now = new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => now;

    public void Advance(TimeSpan by) => now += by;
}
