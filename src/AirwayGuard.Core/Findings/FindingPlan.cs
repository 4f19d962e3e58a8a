using AirwayGuard.Core.Judging;

namespace AirwayGuard.Core.Findings;

/// <summary>What is to happen to one record.</summary>
public enum FindingStep : byte
{
    /// <summary>Nobody knew of it.</summary>
    Raise,

    /// <summary>It stands, on other evidence or with another value.</summary>
    Amend,

    /// <summary>A later fact cleared it, or its line ended.</summary>
    Clear,

    /// <summary>What it rested on was taken back.</summary>
    Withdraw,

    /// <summary>A person closed it: final for this spell.</summary>
    CloseByPerson,

    /// <summary>The policy now in force does not make it: history stays, the Flag ends.</summary>
    Retire,

    /// <summary>
    /// An occurrence says what it said and rests on what it rested on; its state or its spell is another: recorded, not sent. What
    /// could not be told lacks what it lacked, once more or once less.
    /// </summary>
    Follow,
}

/// <summary>One change to what is recorded.</summary>
/// <param name="Finding">As the facts make it now; null for what they no longer make.</param>
/// <param name="Occurrence">For an occurrence's record.</param>
/// <param name="Prior">What is recorded; null if nothing is.</param>
/// <param name="Replaces">For a spell shown again: key of the Flag a person closed.</param>
public sealed record FindingPlanItem(
    FindingStep Step, FindingKind Kind, Guid Key, DerivedFinding? Finding, Occurrence? Occurrence, FindingRecord? Prior, string Fingerprint, int Shown, Guid? Replaces)
{
    /// <summary>For what a check could not tell, as the facts make it now; null for a breach, and for what can be told by now.</summary>
    public DerivedCannotTell? CannotTell { get; init; }

    /// <summary>Says what is to happen to which key.</summary>
    public override string ToString() => $"FindingPlanItem({Step}, {Kind}, {Key})";
}

/// <summary>What a person did to our resources on the server, by key.</summary>
/// <param name="ClosedFlags">Flags a person set inactive.</param>
/// <param name="MitigatedIssues">DetectedIssues that carry a mitigation.</param>
public sealed record PersonsActs(IReadOnlySet<Guid> ClosedFlags, IReadOnlySet<Guid> MitigatedIssues)
{
    public static readonly PersonsActs None = new(new HashSet<Guid>(), new HashSet<Guid>());
}

/// <summary>Rules in force, whether anything leaves the service, and what is shown as new.</summary>
/// <param name="Live">False where nothing may leave the service, whatever was signed off.</param>
/// <param name="NewFor">What happened longer ago raises no new Flag.</param>
public sealed record FindingPolicy(RuleSet Rules, bool Live, TimeSpan NewFor)
{
    public bool Sends(Rule rule) => Live && rule.Mode == Mode.Live;

    /// <summary>Why a change is recorded and not shown.</summary>
    /// <param name="before">What is recorded; null if nothing is.</param>
    /// <param name="file">Tells what another policy had judged already.</param>
    public Withholding WithholdingOf(FindingPlanItem item, FindingContent? before, DateTimeOffset now, FactsOnFile file)
    {
        var wasSent = before?.Sent == true;
        if (item.Finding is null || item.Step == FindingStep.CloseByPerson)
        {
            // Its end changes nothing about whether it was shown.
            return before is null || wasSent ? Withholding.None : Unsent(before);
        }

        // What was said of an occurrence is kept right also where its check has fallen silent since; of a spell the Flag ends.
        var isSpell = item.Kind == FindingKind.Spell;
        return (isSpell ? item.Finding.IsWithheld : item.Occurrence!.Withheld) ? Withholding.SaidByAnotherCheck
            : !Sends(item.Finding.Rule) && !(wasSent && !isSpell && Live) ? Withholding.Silent
            : wasSent ? Withholding.None
            : !isSpell ? (before is null && IsHistory(item.Finding, item.Occurrence!, file) ? Withholding.BeforePolicy : Withholding.None)
            : item.Finding.State != FindingState.Open ? (before is null ? Withholding.OverBeforeJudged : Unsent(before))
            : Timeliness.IsOld(item.Finding, now, NewFor) ? Withholding.Old
            : Withholding.None;
    }

    // A chart is not filled with breaches of a policy that nobody could have kept. Of what stands now the latest is said.
    private static bool IsHistory(DerivedFinding finding, Occurrence occurrence, FactsOnFile file) =>
        file.WasJudgedByAnotherPolicy(occurrence, finding.Rule)
        && !(finding.Stands && finding.State == FindingState.Open && finding.Latest.Key == occurrence.Key);

    // Records from before the reason was kept were withheld as silent, or by another check, which their rule says.
    private static Withholding Unsent(FindingContent before) => before.Withheld == Withholding.None ? Withholding.Silent : before.Withheld;
}
