using System.Globalization;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Worker.Backlog;

/// <summary>
/// Works out from the ledger how far behind the service is, and from the paces it has measured how long catching up takes. Reading
/// comes first; the last judging comes after it, while messages go out beside both.
/// </summary>
/// <param name="queries">Names of the questions that the sweep asks.</param>
/// <param name="sends">Whether anything is sent at all.</param>
/// <param name="contact">While the server does not answer nobody knows how long catching up takes; null: it is taken to answer.</param>
public sealed class BacklogReader(ILedger ledger, IReadOnlyList<string> queries, Paces paces, Func<bool> sends, IntakeOptions intake, TimeProvider clock, ServerContact? contact = null)
{
    // Cursors of what brings nothing move once a minute.
    private static readonly TimeSpan CursorsRest = TimeSpan.FromSeconds(150);

    private TimeSpan Ordinary => TimeSpan.FromSeconds(Math.Max(intake.QuickSeconds, intake.WideSeconds)) + CursorsRest;

    public async ValueTask<BacklogState> ReadAsync(CancellationToken stop)
    {
        var (state, serversNow) = (await ledger.StateAsync(stop), await ServersNowAsync(stop));
        var reading = await UnreadAsync(serversNow, stop);
        var oldest = state.OldestWaiting is { } waiting ? await ledger.ArrivalAsync(waiting, stop) : null;
        var unjudged = oldest is null ? TimeSpan.Zero : serversNow - oldest.KnownAt;
        var behind = unjudged > reading.Behind ? unjudged : reading.Behind;
        var pending = sends() ? state.Pending + state.Unknown : 0;
        var remaining = Longer(reading.Remaining + paces.Judging.For(state.PatientsWaiting), paces.Sending.For(pending));
        remaining = contact?.Silence is null ? Longer(remaining, Held(state)) : null;
        return new BacklogState(reading.IsUnknown && behind <= Ordinary ? null : behind, behind > Ordinary, state.PatientsWaiting, pending, remaining, reading.IsAtLeast && remaining is not null);
    }

    // What a run before this one had claimed is free once its lease has run out, and then takes its time.
    private TimeSpan? Held(LedgerState state) =>
        state.HeldUntil - clock.GetUtcNow() is { } held && held > TimeSpan.Zero ? held + (paces.Judging.For(1) ?? TimeSpan.Zero) : TimeSpan.Zero;

    private async ValueTask<(TimeSpan Behind, TimeSpan? Remaining, bool IsAtLeast, bool IsUnknown)> UnreadAsync(DateTimeOffset serversNow, CancellationToken stop)
    {
        var isFirst = await ledger.CursorAsync(JudgeStep.FirstSweep, stop) is null;
        var (behind, remaining, underWay, notAsked, isUnknown) = (TimeSpan.Zero, TimeSpan.Zero, false, false, false);
        foreach (var query in queries)
        {
            var cursor = await ledger.CursorAsync(SweepNames.CursorName(query), stop);
            var age = cursor is null ? TimeSpan.Zero : serversNow - cursor.ServerTime;
            behind = age > behind ? age : behind;
            isUnknown |= isFirst && cursor is null;
            if (paces.Reading.RemainingOf(query) is { } left)
            {
                (underWay, remaining) = (true, remaining + left);
            }
            else
            {
                // One that the server never answered has no cursor after the first sweep either, and nothing to be behind with.
                notAsked |= cursor is null ? isFirst : age > Ordinary;
            }
        }

        // Nothing of it is under way: it cannot be told how fast it will come.
        return (behind, notAsked && !underWay ? null : remaining, notAsked, isUnknown);
    }

    // As the last wide sweep saw the server's clock beside ours.
    private async ValueTask<DateTimeOffset> ServersNowAsync(CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        foreach (var query in queries)
        {
            if (await ledger.CursorAsync(SweepNames.WideCursorName(query), stop) is { } wide && long.TryParse(wide.LastId, NumberStyles.None, CultureInfo.InvariantCulture, out var ours))
            {
                return now + (wide.ServerTime - new DateTimeOffset(ours, TimeSpan.Zero));
            }
        }

        return now;
    }

    private static TimeSpan? Longer(TimeSpan? one, TimeSpan? other) => one is null || other is null ? null : one > other ? one : other;
}
