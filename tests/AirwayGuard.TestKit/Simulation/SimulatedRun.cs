using AirwayGuard.Core.Diagnostics;
using System.Globalization;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Intake;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>A server, the service beside it and the time both live in, from the first charting until all is quiet.</summary>
internal sealed class SimulatedRun : IDisposable
{
    private const int MostRounds = 400;
    private static readonly TimeSpan QuickSweep = TimeSpan.FromSeconds(31), WideSweep = TimeSpan.FromSeconds(301);

    // As long as a server that asks to be left alone is, however long it asks for.
    private static readonly TimeSpan LongestHold = TimeSpan.FromSeconds(new IntakeOptions().LongestWaitSeconds);

    private readonly VirtualTime _clock = new(ChartingPlan.Start.AddMinutes(-1));
    private readonly Turns _turns = new();
    private readonly SimulatedServer _server;
    private readonly Schedule? _schedule;
    private readonly Random _chance;
    private readonly List<ChartingAct> _toDo;
    private readonly Notices? _notices;
    private Processes _processes;

    /// <param name="schedule">Null for a run without faults.</param>
    public SimulatedRun(ChartingPlan plan, int seed, string folder, Schedule? schedule, Sabotage sabotage = Sabotage.None)
    {
        (Plan, _schedule, _toDo, _chance) = (plan, schedule, [.. plan.Acts], new Random(seed));
        var clock = new ServerClock(_clock) { Ahead = schedule?.Habit switch { ServerHabit.ClockAhead => TimeSpan.FromMinutes(10), ServerHabit.ClockBehind => TimeSpan.FromMinutes(-10), _ => TimeSpan.Zero } };
        var goesBack = schedule?.Habit is ServerHabit.ClockSteps or ServerHabit.HidesRows;
        _server = new SimulatedServer(Path.Combine(folder, "server"), clock, goesBack, schedule?.LacksNextLinks == true, new NoticeWire(notice => _processes!.Up is null ? null : _notices!.Answer(notice)));
        _notices = schedule is null ? null : new Notices(schedule, _clock, (notice, length) => _processes!.Up?.Door.Answer(notice.Channel, notice.Authorization, length));
        _processes = ProcessesOn(
            Path.Combine(folder, "ledger"), new LifeSettings(IsLive: true, schedule?.HasTwoClaimants == true, schedule?.PageSize ?? 500, sabotage));
    }

    public ChartingPlan Plan { get; }

    /// <summary>A race of the server's may have made copies.</summary>
    public bool HasRaced => _schedule?.HasRaced == true;

    /// <summary>Two processes send.</summary>
    public bool HasTwoWriters => _schedule?.HasTwoClaimants == true;

    public SimulatedServer Server => _server;

    public ILedger Ledger => _processes.Ledger;

    /// <summary>Heads of the audit trail at each end of the process.</summary>
    public IReadOnlyList<AuditHead> Heads => _processes.Heads;

    /// <summary>Decisions and receipts refused because their claim had run out.</summary>
    public int RefusedByFence => _processes.Fences.Refused;

    /// <summary>Commits that found the disk full.</summary>
    public int RefusedByDisk => _processes.Disk.Refused;

    public List<string> Troubles { get; } = [];

    /// <summary>What the schedule wills, turn by turn, with its faults.</summary>
    public async Task FollowScheduleAsync(int turns)
    {
        Say($"{_schedule!.Habit}, pages of {_schedule.PageSize}{(_schedule.LacksNextLinks ? " without links" : "")}, {(_schedule.HasTwoClaimants ? "two processes" : "one process")}");
        for (var turn = 0; turn < turns; turn++)
        {
            switch (_schedule.Next(100))
            {
                case < 68:
                    await GoOnAsync();
                    break;
                case < 74:
                    await TryActAsync();
                    break;
                case < 84:
                    Advance();
                    break;
                case < 97:
                    await _server.StepAsync();
                    break;
                default:
                    _notices!.ReleaseOne();
                    break;
            }
        }
    }

    /// <summary>No more faults: everything that is left to do is done, and time goes on until nothing waits for it.</summary>
    public async Task BeQuietAsync()
    {
        await _processes.StartAllAsync();
        _turns.IsStraight = true;
        foreach (var fibre in _processes.Fibres.Where(fibre => !fibre.IsAtRest).ToArray())
        {
            await FinishAsync(fibre);
        }

        var (last, quiet, lastHoldEnds) = (default(LedgerState), 0, _clock.Now + LongestHold + WideSweep);
        for (var round = 0; quiet < 2 || _clock.Now < lastHoldEnds; round++)
        {
            if (round == MostRounds)
            {
                Troubles.Add("It never comes to rest.");
                return;
            }

            await DrainAsync();
            await RetryParkedAsync();
            var state = await Ledger.StateAsync(CancellationToken.None);
            var due = await Ledger.NextDueAsync(CancellationToken.None);
            var isBusy = state is not { PatientsWaiting: 0, Pending: 0, Unknown: 0 };
            if (!isBusy && await TryActAsync())
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

    // A file during whose judging the process ended time after time is set aside until an operator puts it back.
    private async Task RetryParkedAsync()
    {
        foreach (var parked in await Ledger.ParkedEntriesAsync(CancellationToken.None))
        {
            if (parked.Item.Code == Codes.JudgingFailed.Id)
            {
                Say("an operator puts a patient's file back");
                await Ledger.RetryParkedAsync(parked.Number, null, CancellationToken.None);
            }
        }
    }

    public Task EndAsync() => _processes.EndAllAsync();

    /// <summary>Stops the service for good and starts one with an empty ledger, which sends nothing and judges all at once.</summary>
    public async Task StartAnewAsync(string folder)
    {
        await EndAsync();
        _processes = ProcessesOn(folder, new LifeSettings(IsLive: false, IsShared: false, PageSize: 500, Sabotage.None));
        await _processes.StartAllAsync();
        await DrainAsync();
    }

    public void Dispose() => _server.Dispose();

    private Processes ProcessesOn(string folder, LifeSettings settings) => new(folder, _server, _clock, _turns, _chance, settings);

    private async Task GoOnAsync()
    {
        var (able, startable) = (_processes.Able, _processes.Startable);
        if (able.Count + startable.Count == 0)
        {
            Advance();
            return;
        }

        var choice = _schedule!.Next(able.Count + startable.Count);
        if (choice >= able.Count)
        {
            var starting = startable[choice - able.Count];
            await _processes.StartAsync(starting);
            Say($"{_processes.NameOf(starting)}the process starts");
            return;
        }

        await GoOnAsync(able[choice].Process, able[choice].Fibre);
    }

    private async Task GoOnAsync(int process, Fibre fibre)
    {
        var name = _processes.NameOf(process);
        for (var calls = 1 + _schedule!.Next(8); calls > 0 && fibre.MayGoOn; calls--)
        {
            if (fibre.At is not null && _schedule.Pause() is { } time)
            {
                Say(string.Create(CultureInfo.InvariantCulture, $"{name}stands still for {time.TotalSeconds} s before {fibre.At.Name}"));
                _processes.StandStill(process, time);
                return;
            }

            var ends = false;
            var refused = (_processes.Fences.Refused, _processes.Disk.Refused);
            fibre.GoOn(_turns, call =>
            {
                var fate = _schedule.FateOf(call);
                ends = fate.IsEnd;
                Say(fate == Fate.Proceed ? $"{name}{fibre.Name}: {call.Name}" : $"{name}{fibre.Name}: {call.Name}: {fate}");
                return fate;
            });
            SayRefusal(refused);
            if (ends)
            {
                await _processes.EndAsync(process, _schedule.TimeDown());
                return;
            }

            if (await ResultOf(fibre) is { } result && result != StepResult.DidWork)
            {
                return;
            }
        }
    }

    private void SayRefusal((int Fences, int Disk) before)
    {
        if (_processes.Fences.Refused > before.Fences)
        {
            Say("  refused: the claim had run out");
        }

        if (_processes.Disk.Refused > before.Disk)
        {
            Say("  refused: the disk is full");
        }
    }

    private async Task<StepResult?> ResultOf(Fibre fibre)
    {
        try
        {
            return await fibre.TakeResultAsync();
        }
        catch (Exception full) when (SimulatedDisk.IsFull(full))
        {
            return StepResult.BackOff;
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
            foreach (var fibre in _processes.Fibres.Where(fibre => fibre.Name != "subscriptions"))
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

    private async Task<bool> TryActAsync()
    {
        var blocked = new HashSet<string>(StringComparer.Ordinal);
        foreach (var act in _toDo)
        {
            if (blocked.Add(act.Patient) && await TryDoAsync(act))
            {
                _toDo.Remove(act);
                return true;
            }
        }

        return false;
    }

    private async Task<bool> TryDoAsync(ChartingAct act)
    {
        if (act.IsOnOurs)
        {
            act.Target = _schedule is null ? _server.Hands.InForce(act.Kind, act.Patient) : act.Target;
            if (act.Target is { } key && (!await MayBeDoneAsync(act.Kind, key) || !_server.Hands.TryDo(act.Kind, key)))
            {
                return false;
            }

            Say(act.Target is null ? $"{act.Says}: there is none" : act.Says);
            return true;
        }

        _clock.AdvanceTo(ChartingPlan.Start + act.After);
        var hidden = _turns.IsStraight ? TimeSpan.Zero : _schedule?.Hidden() ?? TimeSpan.Zero;
        _server.Chart(act, hidden);
        Say(hidden == TimeSpan.Zero ? "charted " + act.Says : string.Create(CultureInfo.InvariantCulture, $"charted {act.Says}, hidden for {hidden.TotalSeconds} s until now"));
        return true;
    }

    // Of what was created without a word reaching us, and deleted before we looked, nobody can know that it was there; nor that it was
    // deleted while a create was on its way: one that was met and not yet confirmed may have a try under way that does not know of it.
    private async Task<bool> MayBeDoneAsync(ActKind kind, Guid key) =>
        kind is not (ActKind.DeleteFlag or ActKind.DeleteIssue)
        || (!_processes.Fibres.Any(fibre => fibre.At?.Request?.Method == HttpMethod.Post) && _processes.Up is { } life && await OneThread.DoneAsync(life.Ledger.LastSentAsync(key, CancellationToken.None)) is { IsConfirmed: true });

    private void Advance()
    {
        var by = TimeSpan.FromMilliseconds(_schedule!.OneOf([20, 20, 300, 300, 2_000, 2_000, 10_000, 31_000, 61_000, 301_000]));
        Say(string.Create(CultureInfo.InvariantCulture, $"{by.TotalSeconds} s go by"));
        _clock.AdvanceTo(_clock.Now + by);
        _notices!.ReleaseDue();
        if (_schedule.ClockStep() is { } ahead)
        {
            Say(string.Create(CultureInfo.InvariantCulture, $"the server's clock is set to {ahead.TotalMinutes} min ahead of ours"));
            _server.Clock.Ahead = ahead;
        }

        if (_schedule.DiskFull() is { } time)
        {
            Say(string.Create(CultureInfo.InvariantCulture, $"the disk is full for {time.TotalSeconds} s"));
            _processes.Disk.Fill(time);
        }
    }

    private void Say(string what) => _schedule?.Say(_clock.Now, what);
}
