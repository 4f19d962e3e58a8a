using System.Globalization;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>
/// Owns every choice of a run, from a seed: what happens next and which fault. Which faults there are at all, and how many, is
/// drawn once a run, so that some runs meet one kind only and others all.
/// </summary>
internal sealed class Schedule
{
    private static readonly Fate[] HttpFaults = [Fate.LostBefore, Fate.LostAfter, Fate.ServerError, Fate.ServerErrorAfter, Fate.TooMany];
    private readonly Random _random;
    private readonly List<string> _lines = [];
    private readonly List<Fate> _mayHappen = [];
    private readonly List<NoticeFate> _notices = [NoticeFate.Delivered];
    private readonly int _faultPercent;
    private readonly int _endPerMille;
    private int _faultsLeft;
    private readonly bool _endsCluster;
    private int _endsLeft;
    private int _callsOfCluster;

    public Schedule(int seed)
    {
        _random = new Random(seed);
        _mayHappen.AddRange(HttpFaults.Where(_ => _random.Next(2) == 0));
        _notices.AddRange(Enum.GetValues<NoticeFate>().Where(_ => _random.Next(2) == 0));
        _faultPercent = _random.Next(12);
        _endPerMille = _random.Next(4) * 10;
        _faultsLeft = _random.Next(14);
        _endsLeft = _random.Next(9);
        _endsCluster = _random.Next(2) == 0;
    }

    /// <summary>What happened, line by line; no id but invented ones.</summary>
    public IReadOnlyList<string> Lines => _lines;

    public int Faults { get; private set; }

    public int Ends { get; private set; }

    /// <summary>A number from 0 to below <paramref name="below"/>.</summary>
    public int Next(int below) => _random.Next(below);

    public T OneOf<T>(IReadOnlyList<T> choices) => choices[_random.Next(choices.Count)];

    public Fate FateOf(PendingCall call)
    {
        // What ends a process often ends the next one soon after its start.
        var perMille = _callsOfCluster-- > 0 ? 120 : _endPerMille;
        if (_endsLeft > 0 && _random.Next(1000) < perMille)
        {
            _callsOfCluster = _endsCluster ? 30 : 0;
            (_endsLeft, Ends) = (_endsLeft - 1, Ends + 1);
            return _random.Next(2) == 0 ? Fate.EndBefore : Fate.EndAfter;
        }

        if (call.IsHttp && _faultsLeft > 0 && _mayHappen.Count > 0 && _random.Next(100) < _faultPercent)
        {
            (_faultsLeft, Faults) = (_faultsLeft - 1, Faults + 1);
            return OneOf(_mayHappen);
        }

        return Fate.Proceed;
    }

    /// <summary>How long nobody starts the process again.</summary>
    public TimeSpan TimeDown() => TimeSpan.FromSeconds(OneOf([0, 0, 1, 70, 420, 1_500]));

    public NoticeFate FateOfNotice() => OneOf(_notices);

    public void Say(DateTimeOffset now, string what) =>
        _lines.Add(string.Create(CultureInfo.InvariantCulture, $"{_lines.Count + 1,4} {now:HH:mm:ss.fff} {what}"));
}
