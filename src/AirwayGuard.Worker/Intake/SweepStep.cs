using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Backlog;
using Microsoft.Extensions.Logging;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// Sweeps: asks one page of one question at a time. The quick sweep starts from the cursor, when a notice pulled it or its time
/// has come; the wide one looks back the overlap on its own timer. The cursor moves in the commit that keeps the last page. A
/// question that notices pull is asked between the pages of a longer one.
/// </summary>
public sealed class SweepStep : IStep
{
    /// <summary>Name of the cursor that remembers when the ledger's server was first asked: deletions matter from then on.</summary>
    public const string Began = "sweep-began";

    // Less is the way of an answer, or clocks that drift.
    private static readonly TimeSpan StepNoticed = TimeSpan.FromSeconds(30);

    private readonly ILedger _ledger;
    private readonly IArrivalSource _source;
    private readonly ArrivalKeeper _keeper;
    private readonly NoticeBoard _board;
    private readonly IntakeHealth _health;
    private readonly IntakeOptions _options;
    private readonly TimeProvider _clock;
    private readonly SweepTimes _times;
    private readonly ReadingProgress _progress;
    private readonly SweepVoice _voice;
    private readonly ServerContact _contact;
    private readonly HashSet<string> _swept = new(StringComparer.Ordinal);
    private readonly HashSet<string> _doubted = new(StringComparer.Ordinal);
    private readonly HashSet<string> _notOffered = new(StringComparer.Ordinal);
    private readonly IReadOnlyList<string> _questions;
    private int _turn;
    private bool _isShutOut;
    private SweepPass? _long;
    private SweepPass? _pulled;
    private bool _longIsNext;
    private bool _beganKnown;
    private bool _firstSweepKnown;

    public SweepStep(
        ILedger ledger, IArrivalSource source, IArrivalReader reader, NoticeBoard board, IntakeHealth health, IntakeOptions options, TimeProvider clock,
        ILogger<SweepStep> logger, ReadingProgress? progress = null, ServerContact? contact = null)
    {
        _contact = contact ?? new ServerContact(health, options);
        _voice = new SweepVoice(health, _contact, Tally, logger);
        (_ledger, _source, _board, _health, _options, _clock) = (ledger, source, board, health, options, clock);
        _keeper = new ArrivalKeeper(ledger, reader, _voice, Tally, clock);
        (_times, _questions, _progress) = (new SweepTimes(options), [.. source.Types, .. source.Deletions], progress ?? new ReadingProgress());
    }

    public string Name => "sweep";

    /// <summary>What is asked, by name; what was deleted besides.</summary>
    public IReadOnlyList<string> Asked => _source.Types;

    /// <summary>Resources kept so far; for a progress line.</summary>
    public long Kept => _keeper.Kept;

    /// <summary>What was read with a problem, in numbers.</summary>
    public ReadingTally Tally { get; } = new();

    /// <summary>Every question has been asked to its end at least once.</summary>
    public bool FirstSweepDone { get; private set; }

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var now = _clock.GetUtcNow();
        if (_times.IsHeld(now))
        {
            return StepResult.Idle;
        }

        // Between two that were pulled the long one has a page, so that however many notices come it gets to its end.
        if (_longIsNext)
        {
            _longIsNext = false;
            if (await LongPageAsync(now, stop))
            {
                return StepResult.DidWork;
            }
        }

        _pulled ??= await PulledPassAsync(now, stop);
        if (_pulled is { } pulled)
        {
            _pulled = await PageAsync(pulled, stop);
            _longIsNext = _pulled is null;
            return StepResult.DidWork;
        }

        return await LongPageAsync(now, stop) ? StepResult.DidWork : StepResult.Idle;
    }

    private async ValueTask<bool> LongPageAsync(DateTimeOffset now, CancellationToken stop)
    {
        _long ??= await TimedPassAsync(now, stop);
        if (_long is not { } pass)
        {
            return false;
        }

        _long = await PageAsync(pass, stop);
        return true;
    }

    /// <returns>The pass as it goes on; null where it is over.</returns>
    private async ValueTask<SweepPass?> PageAsync(SweepPass pass, CancellationToken stop)
    {
        var page = await _source.PageAsync(pass.Query, pass.Since, pass.Next, stop);
        // Of the answer, not of the question: one that was tried again for minutes would hide a step of the server's clock.
        var now = _clock.GetUtcNow();
        if (page.Problem is { } problem)
        {
            // Asked anew from the cursor: a half-read pass is not continued over an outage. Other questions go on meanwhile.
            _voice.Unanswered(pass.Query, page, SweepTimes.Told(problem, page, _options), _source.Types, now);
            _progress.Ended(pass.Query);
            await SetAsideAsync(pass, page, now, stop);
            return null;
        }

        if (_contact.Silence is not null)
        {
            _times.Reopen();
        }

        _voice.Answered(pass.Query, now);
        await NoteBeganAsync(page.ServerTime!.Value, stop);
        if (pass is { ServerTime: null, Since: { } since, WasAhead: { } ahead } && ahead - (page.ServerTime.Value - now) is var back && back > StepNoticed)
        {
            // The server's clock was set back since: what came then is stamped as if it had come before.
            return pass with { Since = since - back, WasAhead = null };
        }

        page = pass.Chain.Bounded(pass.Query, page);
        foreach (var remark in page.Remarks)
        {
            _voice.Tell(pass.Query, remark.Code, remark.Code.Title);
        }

        pass = pass with
        {
            ServerTime = pass.ServerTime ?? page.ServerTime,
            At = pass.ServerTime is null ? now : pass.At,
            Next = page.Next,
            IsWhole = pass.IsWhole || page.IsWhole,
            IsComplete = pass.IsComplete && page.IsComplete,
            IsDoubted = pass.IsDoubted || page.IsDoubted,
            Remarked = [.. pass.Remarked, .. page.Remarks.Select(remark => remark.Code.Id)],
        };

        // Parked before the cursor moves: after a crash in between they are met again.
        _voice.TellBatch(page.Unusable.Select(unusable => (pass.Query, unusable.Code)));
        foreach (var unusable in page.Unusable)
        {
            await _ledger.ParkAsync(new ParkedItem(null, null, unusable.Code.Id, pass.Query, now), stop);
        }

        var isLast = page.Next is null;
        await _keeper.KeepAsync(page.Arrivals, isLast && pass.IsComplete ? await MovedAsync(pass, page.Arrivals.Count, stop) : null, stop);
        if (!isLast)
        {
            _progress.Came(pass.Query, _clock.GetUtcNow(), NewestOf(page), pass.ServerTime!.Value);
            return pass;
        }

        _progress.Ended(pass.Query);
        _health.ClearBut(pass.Query, pass.Remarked);
        _times.Ended(pass, now);
        if (pass.IsComplete)
        {
            // A wide sweep that was told of more than it saw is asked once more from where it began.
            if (pass.IsWide && !IsDoubtedFirst(pass))
            {
                var ours = pass.At.UtcTicks.ToString(CultureInfo.InvariantCulture);
                await _ledger.KeepAsync([], new SweepCursor(SweepNames.WideCursorName(pass.Query), pass.ServerTime!.Value, ours), stop);
            }

            NoteOpened(pass.Query);
            await NoteSweptAsync(pass.Query, pass.ServerTime!.Value, stop);
        }

        return null;
    }

    private bool IsDoubtedFirst(SweepPass pass)
    {
        if (pass.IsDoubted)
        {
            return _doubted.Add(pass.Query);
        }

        _doubted.Remove(pass.Query);
        return false;
    }

    private static DateTimeOffset? NewestOf(SourcePage page) => page.Arrivals.Where(static one => one.KnownBy == KnownBy.ServersStamp).Max(static one => (DateTimeOffset?)one.KnownAt);

    // What the server does not offer is asked again with the wide sweep, and does not hold up the first judging.
    private async ValueTask SetAsideAsync(SweepPass pass, SourcePage page, DateTimeOffset now, CancellationToken stop)
    {
        _times.SetAside(pass.Query, page, now);
        if (page.IsOffered)
        {
            _board.Pull(pass.Query);
            return;
        }

        if (_source.IsIndispensable(pass.Query))
        {
            // A wrong path, or no right to read at all: what else is not offered meanwhile is no sign that it never is.
            _isShutOut = true;
            return;
        }

        _notOffered.Add(pass.Query);
        await NoteSweptAsync(pass.Query, now, stop);
    }

    // Once the door is open, what was refused before is asked for before anything is judged.
    private void NoteOpened(string query)
    {
        if (_isShutOut && _source.IsIndispensable(query))
        {
            _isShutOut = false;
            _swept.ExceptWith(_notOffered);
            _notOffered.Clear();
        }
    }

    // What notices ask for now, from its cursor. What has no cursor yet is asked in full when its turn comes, and the notice waits.
    private async ValueTask<SweepPass?> PulledPassAsync(DateTimeOffset now, CancellationToken stop)
    {
        if (!_board.IsAsked)
        {
            return null;
        }

        foreach (var query in _source.Types)
        {
            if (_board.Has(query) && _times.MayPull(query, now) && await _ledger.CursorAsync(SweepNames.CursorName(query), stop) is { } cursor)
            {
                _board.Take(query);
                _times.Began(query, now);
                return new SweepPass(query, false, cursor.ServerTime, null, null);
            }
        }

        return null;
    }

    private async ValueTask<SweepPass?> TimedPassAsync(DateTimeOffset now, CancellationToken stop)
    {
        for (var i = 0; i < _questions.Count; i++)
        {
            // In turns: where asking takes longer than the time between two sweeps, none is left out for those before it.
            var at = (_turn + i) % _questions.Count;
            var query = _questions[at];
            if ((at < _source.Types.Count ? await SearchPassAsync(query, now, stop) : await DeletionPassAsync(query, now, stop)) is { } pass)
            {
                _turn = at + 1;
                return pass;
            }
        }

        return _contact.Silence is not null && _times.IsProbeDue(now) ? await ProbeAsync(now, stop) : null;
    }

    // What a server that refuses everything is asked next, before its time: else the end of that would be noticed with the wide sweep only.
    private async ValueTask<SweepPass> ProbeAsync(DateTimeOffset now, CancellationToken stop)
    {
        var query = _source.Types[_turn % _source.Types.Count];
        _turn = (_turn % _source.Types.Count) + 1;
        _times.Began(query, now);
        var cursor = await _ledger.CursorAsync(SweepNames.CursorName(query), stop);
        return new SweepPass(query, cursor is null, cursor?.ServerTime, null, null);
    }

    private async ValueTask<SweepPass?> SearchPassAsync(string query, DateTimeOffset now, CancellationToken stop)
    {
        if (!_times.IsDue(query, now, out var isWide))
        {
            return null;
        }

        _board.Take(query);
        _times.Began(query, now);
        var cursor = await _ledger.CursorAsync(SweepNames.CursorName(query), stop);
        if (cursor is null || !isWide)
        {
            return new SweepPass(query, isWide, cursor?.ServerTime, null, null);
        }

        // Where a process ended before it could note its first wide sweep, quick ones have moved the cursor since: what was hidden then is
        // behind it, nobody knows how far.
        return await _ledger.CursorAsync(SweepNames.WideCursorName(query), stop) is { } wide ? WidePass(query, cursor, wide) : new SweepPass(query, true, null, null, null);
    }

    // The overlap before the last wide sweep, however long that is ago; before the cursor where the server's clock was set back.
    private SweepPass WidePass(string query, SweepCursor cursor, SweepCursor? wide)
    {
        var since = wide is not null && wide.ServerTime < cursor.ServerTime ? wide.ServerTime : cursor.ServerTime;
        return new SweepPass(query, true, since - Overlap, null, null)
        {
            WasAhead = long.TryParse(wide?.LastId, NumberStyles.None, CultureInfo.InvariantCulture, out var ours) ? wide!.ServerTime - new DateTimeOffset(ours, TimeSpan.Zero) : null,
        };
    }

    private async ValueTask<SweepPass?> DeletionPassAsync(string query, DateTimeOffset now, CancellationToken stop) =>
        _times.IsWideDue(query, now) && (await _ledger.CursorAsync(SweepNames.CursorName(query), stop) ?? await _ledger.CursorAsync(Began, stop)) is { } cursor
            ? WidePass(query, cursor, await _ledger.CursorAsync(SweepNames.WideCursorName(query), stop))
            : null;

    private TimeSpan Overlap => TimeSpan.FromSeconds(_options.OverlapSeconds);

    // An idle sweep writes nothing; once a minute the cursor moves all the same, so that the next window stays small. A server whose
    // clock was set back by more than the overlap is followed back: from a cursor in its future nothing would ever be seen.
    private async ValueTask<SweepCursor?> MovedAsync(SweepPass pass, int found, CancellationToken stop)
    {
        var (cursor, time) = (await _ledger.CursorAsync(SweepNames.CursorName(pass.Query), stop), pass.ServerTime!.Value);
        return cursor is null || (time > cursor.ServerTime && (found > 0 || time - cursor.ServerTime > TimeSpan.FromMinutes(1))) || time < cursor.ServerTime - Overlap
            ? new SweepCursor(SweepNames.CursorName(pass.Query), time, null)
            : null;
    }

    private async ValueTask NoteBeganAsync(DateTimeOffset at, CancellationToken stop)
    {
        if (_beganKnown)
        {
            return;
        }

        if (await _ledger.CursorAsync(Began, stop) is null)
        {
            // A ledger from before deletions were asked for: from its first sweep on, as near as it is known.
            var first = await _ledger.CursorAsync(Judging.JudgeStep.FirstSweep, stop);
            await _ledger.KeepAsync([], new SweepCursor(Began, first?.ServerTime ?? at, null), stop);
        }

        _beganKnown = true;
    }

    private async ValueTask NoteSweptAsync(string query, DateTimeOffset at, CancellationToken stop)
    {
        _swept.Add(query);
        if (_firstSweepKnown || !_source.Types.All(_swept.Contains))
        {
            return;
        }

        if (await _ledger.CursorAsync(Judging.JudgeStep.FirstSweep, stop) is null)
        {
            await _ledger.KeepAsync([], new SweepCursor(Judging.JudgeStep.FirstSweep, at, null), stop);
        }

        _firstSweepKnown = FirstSweepDone = true;
    }
}
