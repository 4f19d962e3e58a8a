using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Backlog;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Sending;

namespace AirwayGuard.Host.Service;

/// <summary>What a reader of the page must know before trusting its lists, in sentences.</summary>
/// <param name="Incomplete">Why the list may not be complete now; empty where it is.</param>
/// <param name="Troubles">What stands in the way of reading, judging or writing, and what waits for a person.</param>
internal sealed record PageNotes(IReadOnlyList<string> Incomplete, IReadOnlyList<string> Troubles)
{
    public static readonly PageNotes None = new([], []);

    /// <param name="silence">Null while the server answers.</param>
    /// <param name="troubles">What stands, by its place.</param>
    /// <param name="parked">What is set aside, by code.</param>
    /// <param name="ledger">For what is dated ahead.</param>
    /// <param name="unsent">Null while nothing waits for long to be sent.</param>
    /// <param name="open">Null while no question is left without an answer for long.</param>
    public static PageNotes Of(
        ServiceState state, BacklogState backlog, ServerSilence? silence, IReadOnlyList<(string Where, DiagnosticCode Code)> troubles, IReadOnlyList<(string Code, int Count)> parked,
        LedgerState ledger, UnsentNote? unsent = null, OpenQuestions? open = null) => new(
        [.. silence is null ? Array.Empty<string>() : [$"What is charted since is not here: {silence}."], .. open is null ? Array.Empty<string>() : [$"Not everything is read: {open}."], .. IncompleteOf(state, backlog)],
        [
            .. unsent is null ? Array.Empty<string>() : [$"{unsent}."],
            .. troubles.GroupBy(one => one.Code).OrderBy(same => same.Key.Id, StringComparer.Ordinal)
                .Select(same => $"{same.Key.Id} {same.Key.Title} ({string.Join(", ", same.Select(one => one.Where))}). {same.Key.Advice}"),
            .. parked.Select(one => string.Create(CultureInfo.InvariantCulture, $"{one.Code} {one.Count} set aside: not read or not sent until somebody looks. \"airwayguard parked list\" names them.")),
            .. AheadOf(ledger),
        ]);

    private static IEnumerable<string> AheadOf(LedgerState ledger)
    {
        if (ledger.NextAhead is { } next)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{Codes.ChartedAhead.Id} {Codes.ChartedAhead.Title}, in the charts of {ledger.PatientsAhead} {(ledger.PatientsAhead == 1 ? "patient" : "patients")}; the first begins to count at {next.UtcDateTime:yyyy-MM-dd HH:mm} UTC. {Codes.ChartedAhead.Advice}");
        }
    }

    private static IReadOnlyList<string> IncompleteOf(ServiceState state, BacklogState backlog)
    {
        var incomplete = state.IsReady ? "" : state.IsAsked ? "What was there is not all judged yet: this list is not complete."
            : "The server has not been asked for everything yet: this list is not complete.";
        return incomplete.Length == 0 && !backlog.IsBehind ? []
            : incomplete.Length == 0 ? [$"Behind, so this list is not complete: {BacklogWords.Of(backlog)}."]
            : [incomplete, $"The service is {BacklogWords.Of(backlog)}."];
    }
}
