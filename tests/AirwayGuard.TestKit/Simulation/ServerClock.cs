namespace AirwayGuard.TestKit.Simulation;

/// <summary>The server's clock: the same seconds as ours, another time of day.</summary>
internal sealed class ServerClock(TimeProvider time) : TimeProvider
{
    /// <summary>How far it is ahead of ours; negative where it is behind.</summary>
    public TimeSpan Ahead { get; set; }

    public override long TimestampFrequency => time.TimestampFrequency;

    public override DateTimeOffset GetUtcNow() => time.GetUtcNow() + Ahead;

    public override long GetTimestamp() => time.GetTimestamp();

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) => time.CreateTimer(callback, state, dueTime, period);
}
