using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>A finding as a ledger records it, without what hangs on when it was judged.</summary>
internal sealed record RecordedFinding(
    Guid Key, FindingKind Kind, string Check, string Patient, FindingState State, Guid Parent, int Count, long First, long Latest, bool Sent)
{
    public static async Task<IReadOnlyDictionary<Guid, RecordedFinding>> AllAsync(ILedger ledger, IEnumerable<string> patients)
    {
        var all = new Dictionary<Guid, RecordedFinding>();
        foreach (var patient in patients)
        {
            var name = "Patient/" + patient;
            foreach (var one in await ledger.FindingsAsync(ledger.Entities.Intern(EntityKind.Patient, System.Text.Encoding.UTF8.GetBytes(name)), CancellationToken.None))
            {
                all.Add(one.Key, new RecordedFinding(
                    one.Key, one.Kind, one.Check, name, one.State, one.Parent, one.Count, one.First, one.Latest, FindingContent.Read(one.Content.Span).Sent));
            }
        }

        return all;
    }

    /// <summary>
    /// What must be the same whoever judged when. A spell that a person closed is not looked at further: it stays as it was then.
    /// Of an occurrence only whether it stands counts: which spell it belongs to, and whether that is over, its Flag tells.
    /// </summary>
    public RecordedFinding Comparable(bool closedByPerson) => (closedByPerson, Kind) switch
    {
        (_, FindingKind.Occurrence) => this with { State = FindingState.Open, Parent = Guid.Empty, Sent = false },
        (true, _) => this with { State = FindingState.ClosedByPerson, Count = 0, First = 0, Latest = 0, Sent = false },
        _ => this with { Sent = false },
    };

    public override string ToString() => $"{Kind} {Check} of {Patient}: {State}, {Count} from {Time(First)} to {Time(Latest)} ({Key})";

    private static string Time(long ticks) => ticks == 0 ? "-" : FindingKeys.Anchor(ticks);
}
