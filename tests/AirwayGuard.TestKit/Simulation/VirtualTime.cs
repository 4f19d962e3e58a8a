namespace AirwayGuard.TestKit.Simulation;

/// <summary>Time as a schedule wills it. Timers fire on the thread that advances it, in the order of their times. Not safe for concurrent use.</summary>
public sealed class VirtualTime(DateTimeOffset start) : TimeProvider
{
    private readonly List<VirtualTimer> _timers = [];
    private readonly int _thread = Environment.CurrentManagedThreadId;
    private long _made;

    public DateTimeOffset Now { get; private set; } = start;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    /// <summary>When the next timer fires; null if nothing waits.</summary>
    public DateTimeOffset? NextTimer => Earliest()?.Due;

    public override DateTimeOffset GetUtcNow() => Now;

    public override long GetTimestamp() => Now.UtcTicks;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) => CreateTimer(callback, state, dueTime, period, owner: null);

    /// <param name="owner">Whose timer it is, for <see cref="Forget"/>.</param>
    public ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period, object? owner)
    {
        if (Environment.CurrentManagedThreadId != _thread)
        {
            throw new InvalidOperationException("Somebody waits on another thread than the schedule's: the run is not repeatable.");
        }

        var timer = new VirtualTimer(this, callback, state, _made++, owner);
        timer.Change(dueTime, period);
        return timer;
    }

    /// <summary>Moves on, firing what falls due on the way.</summary>
    public void AdvanceTo(DateTimeOffset until)
    {
        while (Earliest() is { } timer && timer.Due <= until)
        {
            Now = timer.Due > Now ? timer.Due.Value : Now;
            timer.Fire();
        }

        Now = until > Now ? until : Now;
    }

    /// <summary>Nothing of this owner that waits is woken.</summary>
    public void Forget(object owner) => _timers.RemoveAll(timer => timer.Owner == owner);

    private VirtualTimer? Earliest() => _timers.OrderBy(timer => timer.Due).ThenBy(timer => timer.Number).FirstOrDefault();

    private sealed class VirtualTimer(VirtualTime time, TimerCallback callback, object? state, long number, object? owner) : ITimer
    {
        private TimeSpan _period;

        public DateTimeOffset? Due { get; private set; }

        public long Number => number;

        public object? Owner => owner;

        public bool Change(TimeSpan dueTime, TimeSpan period)
        {
            time._timers.Remove(this);
            (Due, _period) = (dueTime == Timeout.InfiniteTimeSpan ? null : time.Now + dueTime, period);
            if (Due is not null)
            {
                time._timers.Add(this);
            }

            return true;
        }

        public void Fire()
        {
            Change(_period > TimeSpan.Zero ? _period : Timeout.InfiniteTimeSpan, _period);
            callback(state);
        }

        public void Dispose() => time._timers.Remove(this);

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
