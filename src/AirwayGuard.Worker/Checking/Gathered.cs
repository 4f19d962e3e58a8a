using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Worker.Checking;

/// <summary>What the patients of one run gave, before it is put in order.</summary>
internal sealed class Gathered
{
    public List<DerivedFinding> Findings { get; } = [];

    public List<DerivedCannotTell> CannotTell { get; } = [];

    public List<JudgedOrder> Orders { get; } = [];

    public int Passes { get; private set; }

    public int Sessions { get; private set; }

    public int Settings { get; private set; }

    public void Add(DerivedFindings derived, in Timeline timeline, Care care, List<DerivedFindings> superseded)
    {
        Findings.AddRange(derived.Findings.Where(IsShown));
        CannotTell.AddRange(derived.CannotTell.Where(one => one.Rule.Mode == Mode.Live));
        Passes += care.Passes.Length;
        Sessions += care.Sessions.Length;
        Settings += care.Settings.Length;
        foreach (ref readonly var order in care.Orders)
        {
            Orders.Add(JudgedOrder.Of(timeline, care, order));
        }

        var standing = derived.Findings.Select(KeyOf).ToHashSet();
        foreach (var wave in superseded)
        {
            foreach (var earlier in wave.Findings.Where(IsShown))
            {
                if (standing.Add(KeyOf(earlier)))
                {
                    Findings.Add(earlier with { State = EndedWithOrder(earlier, wave.Orders, derived.Orders) ? FindingState.Cleared : FindingState.Withdrawn });
                }
            }
        }
    }

    // An order that was changed, held or ended was what it was until then; a row that was corrected never was.
    private static bool EndedWithOrder(DerivedFinding finding, ImmutableArray<StandingOrder> then, ImmutableArray<StandingOrder> now) =>
        then.Any(before => now.Any(order => order.Row == before.Row && order.Since > before.Since)
            && finding.Occurrences.Any(occurrence => occurrence.Subject == before.Identity || occurrence.RestsOn.Any(item => item.Row == before.Row)));

    private static bool IsShown(DerivedFinding finding) => finding.Rule.Mode == Mode.Live;

    private static Guid KeyOf(DerivedFinding finding) => finding.Stands ? finding.Flag : finding.First.Key;
}
