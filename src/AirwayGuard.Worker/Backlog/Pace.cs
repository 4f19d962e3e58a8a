namespace AirwayGuard.Worker.Backlog;

/// <summary>
/// How fast a step does its work, measured by its own runs: pieces done against the time its runs took, the idle ones left out. Safe for concurrent use; nothing is kept over a
/// restart.
/// </summary>
public sealed class Pace
{
    // Each run leaves the ones before it a little less weight: about the last two hundred count.
    private const double Keeps = 0.995;

    // Fewer say little: the first runs of a process are its slowest.
    private const int Least = 5;

    private readonly Lock _gate = new();
    private double _pieces;
    private double _seconds;
    private int _runs;

    /// <summary>Pieces a second; null as long as it was not measured, or nothing gets done.</summary>
    public double? PerSecond
    {
        get
        {
            lock (_gate)
            {
                return _runs >= Least && _seconds > 0 && _pieces > 0 ? _pieces / _seconds : null;
            }
        }
    }

    /// <summary>How long so many pieces take at this pace; null where that is not known.</summary>
    public TimeSpan? For(long pieces) => pieces == 0 ? TimeSpan.Zero : PerSecond is { } pace ? TimeSpan.FromSeconds(pieces / pace) : null;

    /// <param name="pieces">What the run got done; 0 for one that came to nothing.</param>
    public void Ran(TimeSpan took, int pieces)
    {
        lock (_gate)
        {
            (_pieces, _seconds) = ((_pieces * Keeps) + pieces, (_seconds * Keeps) + Math.Max(0, took.TotalSeconds));
            _runs = Math.Min(_runs + 1, Least);
        }
    }
}
