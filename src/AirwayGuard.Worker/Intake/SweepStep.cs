using AirwayGuard.Core.Ports;
using Microsoft.Extensions.Logging;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// Sweeps: asks one page of one question at a time. The quick sweep starts from the cursor, when a notice pulled it or its time
/// has come; the wide one looks back the overlap on its own timer. The cursor moves in the commit that keeps the last page.
/// </summary>
public sealed partial class SweepStep : IStep
{
    private readonly ILedger _ledger;
    private readonly IArrivalSource _source;
    private readonly IArrivalReader _reader;
    private readonly NoticeBoard _board;
    private readonly IntakeOptions _options;
    private readonly TimeProvider _clock;
    private readonly ILogger _logger;
    private readonly Dictionary<string, DateTimeOffset> _nextQuick = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DateTimeOffset> _nextWide = new(StringComparer.Ordinal);
    private readonly HashSet<string> _swept = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DateTimeOffset> _notBefore = new(StringComparer.Ordinal);
    private Pass? _pass;
    private bool _firstSweepKnown;

    public SweepStep(ILedger ledger, IArrivalSource source, IArrivalReader reader, NoticeBoard board, IntakeOptions options, TimeProvider clock, ILogger<SweepStep> logger)
    {
        (_ledger, _source, _reader, _board, _options, _clock, _logger) = (ledger, source, reader, board, options, clock, logger);
    }

    public string Name => "sweep";

    /// <summary>Resources kept so far; for a progress line.</summary>
    public long Kept { get; private set; }

    /// <summary>Every question has been asked to its end at least once.</summary>
    public bool FirstSweepDone { get; private set; }

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var now = _clock.GetUtcNow();
        _pass ??= await NextPassAsync(now, stop);
        if (_pass is null)
        {
            return StepResult.Idle;
        }

        var page = await _source.PageAsync(_pass.Query, _pass.Since, _pass.Next, stop);
        if (page.Problem is { } problem)
        {
            // Asked anew from the cursor: a half-read pass is not continued over an outage. Other questions go on meanwhile.
            LogTrouble(_logger, problem.Code.Id, problem.Where);
            await SetAsideAsync(_pass, page, now, stop);
            _pass = null;
            return StepResult.DidWork;
        }

        _pass = _pass with { ServerTime = _pass.ServerTime ?? page.ServerTime, Next = page.Next };
        var isLast = page.Next is null;
        foreach (var unusable in page.Unusable)
        {
            LogProblem(_logger, unusable.Code.Id, _pass.Query);
            await _ledger.ParkAsync(new ParkedItem(null, null, unusable.Code.Id, _pass.Query, now), stop);
        }

        await KeepAsync(page.Arrivals, isLast ? await MovedAsync(_pass, page.Arrivals.Count, stop) : null, stop);
        if (isLast)
        {
            await EndPassAsync(_pass, now, stop);
            _pass = null;
        }

        return StepResult.DidWork;
    }

    // What the server does not offer is asked again with the wide sweep, and does not hold up the first judging.
    private async ValueTask SetAsideAsync(Pass pass, SourcePage page, DateTimeOffset now, CancellationToken stop)
    {
        var wait = page.IsOffered ? TimeSpan.FromSeconds(_options.BackOffSeconds) : TimeSpan.FromSeconds(_options.WideSeconds);
        var asked = page.RetryAfter is { } retry && retry < TimeSpan.FromMinutes(15) ? retry : wait;
        _notBefore[pass.Query] = now + (asked > wait ? asked : wait);
        if (page.IsOffered)
        {
            _board.Pull(pass.Query);
            return;
        }

        _swept.Add(pass.Query);
        await NoteFirstSweepAsync(now, stop);
    }

    private static string CursorName(string query) => "sweep:" + query;

    private async ValueTask<Pass?> NextPassAsync(DateTimeOffset now, CancellationToken stop)
    {
        foreach (var query in _source.Types)
        {
            if (now < _notBefore.GetValueOrDefault(query))
            {
                continue;
            }

            var pulled = _board.Take(query);
            var isWide = now >= _nextWide.GetValueOrDefault(query);
            if (!pulled && !isWide && now < _nextQuick.GetValueOrDefault(query))
            {
                continue;
            }

            var cursor = await _ledger.CursorAsync(CursorName(query), stop);
            var back = isWide ? TimeSpan.FromSeconds(_options.OverlapSeconds) : TimeSpan.Zero;
            return new Pass(query, isWide, cursor is null ? null : cursor.ServerTime - back, null, null);
        }

        return null;
    }

    // An idle sweep writes nothing; once a minute the cursor moves all the same, so that the next window stays small.
    private async ValueTask<SweepCursor?> MovedAsync(Pass pass, int found, CancellationToken stop)
    {
        var cursor = await _ledger.CursorAsync(CursorName(pass.Query), stop);
        return cursor is null || (pass.ServerTime > cursor.ServerTime && (found > 0 || pass.ServerTime - cursor.ServerTime > TimeSpan.FromMinutes(1)))
            ? new SweepCursor(CursorName(pass.Query), pass.ServerTime!.Value, null)
            : null;
    }

    private async ValueTask KeepAsync(IReadOnlyList<Arrival> arrivals, SweepCursor? moved, CancellationToken stop)
    {
        var read = new List<ReadArrival>(arrivals.Count);
        foreach (var arrival in arrivals)
        {
            var reading = new Reading();
            _reader.Read(arrival, _ledger.Entities, reading);
            read.Add(new ReadArrival(arrival, reading));
        }

        if (read.Count == 0 && moved is null)
        {
            return;
        }

        var kept = await _ledger.KeepAsync(read, moved, stop);
        for (var i = 0; i < kept.Count; i++)
        {
            if (!kept[i].IsNew)
            {
                continue;
            }

            Kept++;
            foreach (var problem in read[i].Reading.Problems)
            {
                LogProblem(_logger, problem.Code.Id, read[i].Arrival.Type);
            }

            if (!read[i].Reading.Readable)
            {
                var code = read[i].Reading.Problems is [var first, ..] ? first.Code.Id : Core.Diagnostics.Codes.ArrivalUnreadable.Id;
                await _ledger.ParkAsync(new ParkedItem(kept[i].Position, null, code, read[i].Arrival.Type ?? "", _clock.GetUtcNow()), stop);
            }
        }
    }

    private async ValueTask EndPassAsync(Pass pass, DateTimeOffset now, CancellationToken stop)
    {
        _nextQuick[pass.Query] = now + TimeSpan.FromSeconds(_options.QuickSeconds);
        if (pass.IsWide)
        {
            _nextWide[pass.Query] = now + TimeSpan.FromSeconds(_options.WideSeconds);
        }

        _swept.Add(pass.Query);
        await NoteFirstSweepAsync(pass.ServerTime!.Value, stop);
    }

    private async ValueTask NoteFirstSweepAsync(DateTimeOffset at, CancellationToken stop)
    {
        if (_firstSweepKnown || _swept.Count < _source.Types.Count)
        {
            return;
        }

        if (await _ledger.CursorAsync(Judging.JudgeStep.FirstSweep, stop) is null)
        {
            await _ledger.KeepAsync([], new SweepCursor(Judging.JudgeStep.FirstSweep, at, null), stop);
        }

        _firstSweepKnown = FirstSweepDone = true;
    }

    private sealed record Pass(string Query, bool IsWide, DateTimeOffset? Since, DateTimeOffset? ServerTime, string? Next);

    [LoggerMessage(4001, LogLevel.Warning, "Sweep of {Query} did not succeed: {Code}")]
    private static partial void LogTrouble(ILogger logger, string code, string query);

    [LoggerMessage(4002, LogLevel.Information, "Reading a {Type} met {Code}")]
    private static partial void LogProblem(ILogger logger, string code, string? type);
}
