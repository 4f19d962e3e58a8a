using System.Globalization;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>
/// Owns every choice of a run, from a seed: what happens next and which fault. Which faults there are at all, and how many, is
/// drawn once a run, so that some runs meet one kind only and others all.
/// </summary>
internal sealed class Schedule
{
    private readonly Random _random;
    private readonly List<string> _lines = [];
    private readonly List<HttpFault> _mayHappen = [];
    private readonly List<NoticeFate> _notices = [NoticeFate.Delivered];
    private readonly int _faultPercent;
    private readonly int _endPerMille;
    private readonly bool _endsCluster;
    private readonly bool _diskFills;
    private int _faultsLeft;
    private int _endsLeft;
    private int _callsOfCluster;
    private int _pausesLeft;
    private int _stepsLeft;

    public Schedule(int seed)
    {
        _random = new Random(seed);
        _mayHappen.AddRange(HttpFaults.All.Where(_ => _random.Next(3) == 0));
        _notices.AddRange(Enum.GetValues<NoticeFate>().Where(_ => _random.Next(2) == 0));
        _faultPercent = _random.Next(15);
        _endPerMille = _random.Next(4) * 10;
        _faultsLeft = _random.Next(20);
        _endsLeft = _random.Next(9);
        _endsCluster = _random.Next(2) == 0;
        _diskFills = _random.Next(4) == 0;
        Habit = _random.Next(2) == 0 ? ServerHabit.Plain : OneOf(Enum.GetValues<ServerHabit>());
        HasTwoClaimants = _random.Next(4) == 0;
        PageSize = OneOf([2, 3, 5, 500]);
        LacksNextLinks = seed % 16 == 13;
        (_pausesLeft, _stepsLeft) = (HasTwoClaimants ? 4 : 0, Habit == ServerHabit.ClockSteps ? 1 : 0);
    }

    /// <summary>What happened, line by line; no id but invented ones.</summary>
    public IReadOnlyList<string> Lines => _lines;

    public ServerHabit Habit { get; }

    /// <summary>Two processes share the ledger.</summary>
    public bool HasTwoClaimants { get; }

    /// <summary>Resources asked for a page.</summary>
    public int PageSize { get; }

    /// <summary>The server never links to what follows a page. By the seed and not drawn: what is drawn for a seed stays as it was.</summary>
    public bool LacksNextLinks { get; }

    public int Faults { get; private set; }

    public int Ends { get; private set; }

    /// <summary>A race of the server's may have made copies.</summary>
    public bool HasRaced { get; private set; }

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

        if (call.Request is { } request && _faultsLeft > 0 && _random.Next(100) < _faultPercent && _mayHappen.Where(fault => fault.Suits(request)).ToArray() is { Length: > 0 } possible)
        {
            (_faultsLeft, Faults) = (_faultsLeft - 1, Faults + 1);
            var fault = OneOf(possible).Draw(this);
            HasRaced |= fault is RacedCreate;
            return fault;
        }

        return Fate.Proceed;
    }

    /// <summary>How long nobody starts the process again.</summary>
    public TimeSpan TimeDown() => TimeSpan.FromSeconds(OneOf([0, 0, 1, 70, 420, 1_500]));

    public NoticeFate FateOfNotice() => OneOf(_notices);

    /// <summary>For how long the disk is full from now on; null: it is not.</summary>
    public TimeSpan? DiskFull() => _diskFills && _random.Next(60) == 0 ? TimeSpan.FromSeconds(OneOf([1, 20, 90, 600])) : null;

    /// <summary>For how long a process stands still from now on; null: it goes on.</summary>
    public TimeSpan? Pause()
    {
        if (_pausesLeft == 0 || _random.Next(40) > 0)
        {
            return null;
        }

        _pausesLeft--;
        return TimeSpan.FromSeconds(OneOf([20, 61, 90, 400]));
    }

    /// <summary>How far the server's clock is ahead from now on; null: as before.</summary>
    public TimeSpan? ClockStep()
    {
        if (_stepsLeft == 0 || _random.Next(30) > 0)
        {
            return null;
        }

        _stepsLeft--;
        return TimeSpan.FromMinutes(OneOf([-10, -3, 3, 10]));
    }

    /// <summary>For how long a row that is charted now is hidden; zero for none.</summary>
    public TimeSpan Hidden() => Habit == ServerHabit.HidesRows && _random.Next(3) == 0 ? TimeSpan.FromSeconds(OneOf([1, 20, 70, 120])) : TimeSpan.Zero;

    public void Say(DateTimeOffset now, string what) =>
        _lines.Add(string.Create(CultureInfo.InvariantCulture, $"{_lines.Count + 1,4} {now:HH:mm:ss.fff} {what}"));
}
