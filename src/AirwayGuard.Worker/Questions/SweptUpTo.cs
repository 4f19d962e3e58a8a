using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Worker.Questions;

/// <summary>Up to when the ledger knows its server: the oldest of the questions that the sweep asks. Read anew every ten seconds at most. Safe for concurrent use.</summary>
/// <param name="queries">Names of the sweep's questions that a judgement rests on.</param>
public sealed class SweptUpTo(ILedger ledger, IReadOnlyList<string> queries, TimeProvider clock)
{
    private static readonly TimeSpan Fresh = TimeSpan.FromSeconds(10);

    private volatile Known? _known;

    /// <returns>By the server's clock; null where not everything was asked for once.</returns>
    public async ValueTask<DateTimeOffset?> ReadAsync(CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        if (_known is { } known && now - known.ReadAt < Fresh)
        {
            return known.UpTo;
        }

        var upTo = await ledger.CursorAsync(JudgeStep.FirstSweep, stop) is null ? null : await OldestAsync(stop);
        _known = upTo is null ? null : new Known(upTo.Value, now);
        return upTo;
    }

    private async ValueTask<DateTimeOffset?> OldestAsync(CancellationToken stop)
    {
        DateTimeOffset? oldest = null;
        foreach (var query in queries)
        {
            if (await ledger.CursorAsync(SweepNames.CursorName(query), stop) is not { } cursor)
            {
                return null;
            }

            oldest = oldest is null || cursor.ServerTime < oldest ? cursor.ServerTime : oldest;
        }

        return oldest;
    }

    private sealed record Known(DateTimeOffset UpTo, DateTimeOffset ReadAt);
}
