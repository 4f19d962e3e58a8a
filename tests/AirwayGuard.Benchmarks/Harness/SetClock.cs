namespace AirwayGuard.Benchmarks.Harness;

/// <summary>A clock that stands where it is put: what is judged does not hang on the day of the measurement.</summary>
internal sealed class SetClock(DateTimeOffset now) : TimeProvider
{
    public DateTimeOffset Now { get; set; } = now;

    public override DateTimeOffset GetUtcNow() => Now;
}
