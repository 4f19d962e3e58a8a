namespace AirwayGuard.TestKit.Simulation;

/// <summary>Time as one process sees it: what it waits for ends with it.</summary>
internal sealed class ProcessClock(VirtualTime time) : TimeProvider
{
    public override long TimestampFrequency => time.TimestampFrequency;

    public override DateTimeOffset GetUtcNow() => time.Now;

    public override long GetTimestamp() => time.GetTimestamp();

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) => time.CreateTimer(callback, state, dueTime, period, this);

    /// <summary>Nothing that waits is woken: the process that waited is gone.</summary>
    public void End() => time.Forget(this);
}
