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
        foreach (var earlier in superseded.SelectMany(one => one.Findings).Where(IsShown))
        {
            if (standing.Add(KeyOf(earlier)))
            {
                Findings.Add(earlier with { State = FindingState.Withdrawn });
            }
        }
    }

    private static bool IsShown(DerivedFinding finding) => finding.Rule.Mode == Mode.Live;

    private static Guid KeyOf(DerivedFinding finding) => finding.Stands ? finding.Flag : finding.First.Key;
}
