using System.Globalization;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>A server, the service beside it and the time both live in, from the first charting until all is quiet.</summary>
internal sealed class SimulatedRun : IDisposable
{
    private const int MostRounds = 400;
    private static readonly TimeSpan QuickSweep = TimeSpan.FromSeconds(31), WideSweep = TimeSpan.FromSeconds(301);

    private readonly VirtualTime _clock = new(ChartingPlan.Start.AddMinutes(-1));
    private readonly Turns _turns = new();
    private readonly SimulatedServer _server;
    private readonly Schedule? _schedule;
    private readonly Random _chance;
    private readonly string _folder;
    private readonly Sabotage _sabotage;
    private readonly List<ChartingAct> _toDo;
    private readonly List<Notice> _heldBack = [];
    private readonly List<AuditHead> _heads = [];
    private ServiceLife? _life;
    private DateTimeOffset _downUntil;

    /// <param name="schedule">Null for a run without faults.</param>
    public SimulatedRun(ChartingPlan plan, int seed, string folder, Schedule? schedule, Sabotage sabotage = Sabotage.None)
    {
        (Plan, _folder, _schedule, _toDo, _chance, _sabotage) = (plan, Path.Combine(folder, "ledger"), schedule, [.. plan.Acts], new Random(seed), sabotage);
        _server = new SimulatedServer(Path.Combine(folder, "server"), _clock, new NoticeWire(Answer));
    }

    public ChartingPlan Plan { get; }

    public SimulatedServer Server => _server;

    public ILedger Ledger => _life!.Ledger;

    /// <summary>Heads of the audit trail at each end of the process.</summary>
    public IReadOnlyList<AuditHead> Heads => _heads;

    public List<string> Troubles { get; } = [];

    /// <summary>What the schedule wills, turn by turn, with its faults.</summary>
    public async Task FollowScheduleAsync(int turns)
    {
        for (var turn = 0; turn < turns; turn++)
        {
            switch (_schedule!.Next(100))
            {
                case < 68:
                    await GoOnAsync();
                    break;
                case < 74:
                    TryAct();
                    break;
                case < 84:
                    Advance();
                    break;
                case < 97:
                    await _server.StepAsync();
                    break;
                default:
                    Release();
                    break;
            }
        }
    }

    /// <summary>No more faults: everything that is left to do is done, and time goes on until nothing waits for it.</summary>
    public async Task BeQuietAsync()
    {
        await StartAsync();
        _turns.IsStraight = true;
        foreach (var fibre in _life!.Fibres.Where(fibre => fibre.At is not null))
        {
            await FinishAsync(fibre);
        }

        var (last, quiet) = (default(LedgerState), 0);
        for (var round = 0; quiet < 2; round++)
        {
            if (round == MostRounds)
            {
                Troubles.Add("It never comes to rest.");
                return;
            }

            await DrainAsync();
            var state = await Ledger.StateAsync(CancellationToken.None);
            var due = await Ledger.NextDueAsync(CancellationToken.None);
            var isBusy = state is not { PatientsWaiting: 0, Pending: 0, Unknown: 0 };
            if (!isBusy && TryAct())
            {
                _clock.AdvanceTo(_clock.Now + QuickSweep);
                quiet = 0;
                continue;
            }

            quiet = isBusy || due is not null || _toDo.Count > 0 || state != last ? 0 : quiet + 1;
            last = state;
            _clock.AdvanceTo(!isBusy && due > _clock.Now + WideSweep ? due.Value : _clock.Now + WideSweep);
        }
    }


    public async Task StartAsync() =>
        _life ??= await ServiceLife.StartAsync(_folder, _server, _clock, _turns, _chance, live: true, _sabotage);

    public async Task EndAsync()
    {
        if (_life is { } life)
        {
            _life = null;
            _heads.Add(await life.EndAsync());
        }
    }

    /// <summary>Stops the service for good and starts one with an empty ledger, which sends nothing and judges all at once.</summary>
    public async Task StartAnewAsync(string folder)
    {
        await EndAsync();
        _life = await ServiceLife.StartAsync(folder, _server, _clock, _turns, _chance, live: false, Sabotage.None);
        await DrainAsync();
    }

    public void Dispose() => _server.Dispose();

    private async Task GoOnAsync()
    {
        if (_life is null)
        {
            if (_clock.Now < _downUntil)
            {
                Advance();
                return;
            }

            await StartAsync();
            Say("the process starts");
            return;
        }

        var able = _life.Fibres.Where(fibre => fibre.MayGoOn).ToArray();
        if (able.Length == 0)
        {
            Advance();
            return;
        }

        var fibre = _schedule!.OneOf(able);
        for (var calls = 1 + _schedule.Next(8); calls > 0 && fibre.MayGoOn; calls--)
        {
            var ends = false;
            fibre.GoOn(_turns, call =>
            {
                var fate = _schedule.FateOf(call);
                ends = fate is Fate.EndBefore or Fate.EndAfter;
                Say(fate == Fate.Proceed ? $"{fibre.Name}: {call.Name}" : $"{fibre.Name}: {call.Name}: {fate}");
                return fate;
            });
            if (ends)
            {
                await EndAsync();
                _downUntil = _clock.Now + _schedule.TimeDown();
                return;
            }

            if (await ResultOf(fibre) is { } result && result != StepResult.DidWork)
            {
                return;
            }
        }
    }

    private async Task<StepResult?> ResultOf(Fibre fibre)
    {
        try
        {
            return await fibre.TakeResultAsync();
        }
        catch (Exception trouble) when (trouble is not OutOfMemoryException)
        {
            Troubles.Add($"Step {fibre.Name} threw {trouble.GetType().Name} at {trouble.StackTrace?.Split('\n').FirstOrDefault()?.Trim()}");
            return StepResult.BackOff;
        }
    }

    // Each step until it has nothing more to do now.
    private async Task DrainAsync()
    {
        for (var worked = true; worked;)
        {
            worked = false;
            // Sweeps find everything without notices.
            foreach (var fibre in _life!.Fibres.Where(fibre => fibre.Name != "subscriptions"))
            {
                while (await FinishAsync(fibre) == StepResult.DidWork)
                {
                    worked = true;
                }
            }
        }
    }

    private async Task<StepResult> FinishAsync(Fibre fibre)
    {
        while (true)
        {
            if (fibre.MayGoOn)
            {
                fibre.GoOn(_turns, static _ => Fate.Proceed);
            }

            if (await ResultOf(fibre) is { } result)
            {
                return result;
            }

            if (_clock.NextTimer is not { } next)
            {
                throw new InvalidOperationException($"Step {fibre.Name} waits for nothing.");
            }

            _clock.AdvanceTo(next);
        }
    }

    private bool TryAct()
    {
        var blocked = new HashSet<string>(StringComparer.Ordinal);
        foreach (var act in _toDo)
        {
            if (blocked.Add(act.Patient) && TryDo(act))
            {
                _toDo.Remove(act);
                Say("charted " + act.Says);
                return true;
            }
        }

        return false;
    }

    private bool TryDo(ChartingAct act)
    {
        var at = ChartingPlan.Start + act.After;
        if (act.IsClosing)
        {
            act.Target = _schedule is null ? _server.FlagInForce(act.Patient) : act.Target;
            return act.Target is not { } key || _server.TryClose(key);
        }

        _clock.AdvanceTo(at);
        _server.Chart(act);
        return true;
    }

    private void Advance()
    {
        var by = TimeSpan.FromMilliseconds(_schedule!.OneOf([20, 20, 300, 300, 2_000, 2_000, 10_000, 31_000, 61_000, 301_000]));
        Say(string.Create(CultureInfo.InvariantCulture, $"{by.TotalSeconds} s go by"));
        _clock.AdvanceTo(_clock.Now + by);
    }

    private int? Answer(Notice notice)
    {
        if (_life is null)
        {
            return null;
        }

        var fate = _schedule!.FateOfNotice();
        Say($"notice on {notice.Channel}: {fate}");
        switch (fate)
        {
            case NoticeFate.Dropped:
                return 202;
            case NoticeFate.HeldBack:
                _heldBack.Add(notice);
                return 202;
            case NoticeFate.Refused:
                return 500;
            case NoticeFate.Doubled:
                _life.Door.Answer(notice.Channel, notice.Authorization, 0);
                break;
            default:
                break;
        }

        return _life.Door.Answer(notice.Channel, notice.Authorization, fate == NoticeFate.Empty ? null : 2);
    }

    // The newest first: what was held back comes out of its order.
    private void Release()
    {
        if (_life is not null && _heldBack.Count > 0)
        {
            var notice = _heldBack[^1];
            _heldBack.RemoveAt(_heldBack.Count - 1);
            Say($"held-back notice on {notice.Channel} arrives");
            _life.Door.Answer(notice.Channel, notice.Authorization, 2);
        }
    }

    private void Say(string what) => _schedule?.Say(_clock.Now, what);
}
