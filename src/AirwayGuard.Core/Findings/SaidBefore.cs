using AirwayGuard.Core.Ports;

namespace AirwayGuard.Core.Findings;

/// <summary>
/// The judgement whose words and limit a record still holds, where a later one by another policy changed what became of it and not
/// what it says.
/// </summary>
/// <param name="Basis">What was judged by then.</param>
/// <param name="UpTo">Position up to which the ledger was known then.</param>
/// <param name="Fingerprint">What was found then.</param>
public sealed record SaidBefore(MessageBasis Basis, long UpTo, string Fingerprint)
{
    /// <summary>Says its rule set only.</summary>
    public override string ToString() => $"SaidBefore({Basis.RuleSet} {Basis.RuleSetVersion})";

    /// <param name="before">What is recorded; null if nothing is.</param>
    /// <param name="now">What is judged by now.</param>
    /// <returns>Null where the record says what this judgement says.</returns>
    public static SaidBefore? Of(FindingPlanItem item, FindingContent? before, MessageBasis now)
    {
        var keepsItsWords = item.Finding is null || item.Step is FindingStep.Follow or FindingStep.CloseByPerson;
        if (!keepsItsWords || before is null || (before.Said ?? AsRecorded(before, item.Prior!)) is not { } said)
        {
            return null;
        }

        // What comes out as it was, and what ended under its own policy, is told of the judgement now.
        return (item.Step == FindingStep.Follow ? said.Fingerprint == item.Fingerprint : said.Basis.BasisSha256 == now.BasisSha256) ? null : said;
    }

    private static SaidBefore? AsRecorded(FindingContent before, FindingRecord prior) =>
        before.Basis is { } basis ? new SaidBefore(basis with { BasisSha256 = prior.BasisSha256 }, prior.JudgedAt.Value, before.Fingerprint) : null;
}
