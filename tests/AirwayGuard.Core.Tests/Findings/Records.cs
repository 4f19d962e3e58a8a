using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Tests.Findings;

/// <summary>What stands recorded, kept up to date by plans as the service keeps it.</summary>
internal sealed class Records
{
    private static readonly MessageBasis Basis = new("strict-ranges", "1", new string('a', 64), new string('b', 64), "1", "1");

    private static readonly FactsOnFile NeverAnotherPolicy =
        new(null, new TimelineLease(default, [], 0, new int[Concepts.Count + 1], [], 0, default, false), new NoNames());

    private readonly Dictionary<Guid, FindingRecord> _records = [];

    public IReadOnlyList<FindingRecord> All => [.. _records.Values];

    /// <summary>Plans, applies, and gives the plan as <c>Step Kind check</c>.</summary>
    public IReadOnlyList<FindingPlanItem> Take(DerivedFindings derived, RuleSet rules, PersonsActs? acts = null)
    {
        var plan = Reconciler.Plan(All, derived, new FindingPolicy(rules, true, TimeSpan.MaxValue), acts ?? PersonsActs.None, NeverAnotherPolicy);
        foreach (var item in plan)
        {
            _records[item.Key] = Recorded(item);
        }

        return plan;
    }

    private static FindingRecord Recorded(FindingPlanItem item)
    {
        var state = item.Step switch
        {
            FindingStep.Withdraw => FindingState.Withdrawn,
            FindingStep.CloseByPerson => FindingState.ClosedByPerson,
            FindingStep.Amend or FindingStep.Follow when item.Kind == FindingKind.Occurrence && item.Prior!.State == FindingState.ClosedByPerson => FindingState.ClosedByPerson,
            FindingStep.Retire => FindingState.Cleared,
            _ when item.Kind == FindingKind.CannotTell => item.CannotTell is null ? FindingState.Cleared : FindingState.Open,
            _ => item.Finding!.State,
        };
        var flag = item.Kind == FindingKind.Spell && item.Finding is { } finding
            ? new FlagMessage(
                item.Key, finding.Rule.Id, FlagStatus.Active, Reconciler.Highest(finding), "", "Patient/p1", null, DateTimeOffset.UnixEpoch, null, [], item.Replaces, "", [], "live", Basis)
            : null;
        var content = new FindingContent(item.Fingerprint, item.Shown, item.Finding?.Line ?? "", item.Finding?.Anchor ?? "", true, null, flag)
        {
            Airway = item.Finding?.Latest.Airway ?? "",
            Missing = item.CannotTell?.Missing ?? default,
        };
        return new FindingRecord(
            item.Key, item.Kind, item.Finding?.Rule.Id ?? item.CannotTell?.Rule.Id ?? item.Prior!.Check, default, state, item.Kind == FindingKind.Spell ? Guid.Empty : item.Finding?.Flag ?? item.Prior?.Parent ?? Guid.Empty, 1, 0, 0,
            false, new Position(1), Basis.BasisSha256, content.Write());
    }

    private sealed class NoNames : IEntityNames
    {
        public string NameOf(Entity entity) => "";

        public string IdentityOf(Entity entity) => "";
    }
}
