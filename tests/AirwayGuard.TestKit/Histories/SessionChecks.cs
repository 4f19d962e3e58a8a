namespace AirwayGuard.TestKit.Histories;

/// <summary>too-many-passes, rest-between-passes-short, suctioned-too-often and outcome-not-charted over sessions.</summary>
internal static class SessionChecks
{
    public static void Judge(Checks checks)
    {
        foreach (var session in checks.Passes.Sessions)
        {
            JudgeCount(checks, session);
            JudgeRest(checks, session);
            JudgeOutcome(checks, session);
            JudgeOften(checks, session);
        }
    }

    // The larger of the passes found and the largest count charted: above 3, with intracranial pressure monitored above 2.
    private static void JudgeCount(Checks checks, IReadOnlyList<Pass> session)
    {
        var charted = session.SelectMany(p => p.Of(checks.Known, "pass-count")).Where(i => i.Number is { Unit: null or "{count}" or "1" }).Max(i => i.Number?.Amount);
        var passes = Math.Max(session.Count, charted ?? 0m);
        var limit = checks.Known.Holds("intracranial-pressure-monitored", session[0].Start) ? 2m : 3m;
        checks.Tell("too-many-passes", session[0], new Criterion(false, limit).Judge(passes, null), "moderate", passes, "{count}");
    }

    // From the end charted of the pass before: below 30 s.
    private static void JudgeRest(Checks checks, IReadOnlyList<Pass> session)
    {
        for (var n = 1; n < session.Count; n++)
        {
            if (session[n - 1].End is { } end)
            {
                var rest = (decimal)(session[n].Start - end).TotalSeconds;
                checks.Tell("rest-between-passes-short", session[n], new Criterion(false, 30m, Floor: true).Judge(rest, null), "low", rest, "s");
            }
        }
    }

    // Secretions, a reaction or an assessment, among the session's rows or within 2 h after its last pass.
    private static void JudgeOutcome(Checks checks, IReadOnlyList<Pass> session)
    {
        var over = session.Max(p => p.Over(checks.Known));
        var charted = checks.Known.Items.Any(i => IsOutcome(i) && (session.Any(p => p.Rows.Contains(i.Row)) || (i.At >= over && i.At <= over.AddHours(2))));
        if (checks.HasWaited(over) && !charted)
        {
            checks.Tell("outcome-not-charted", session[0], Outcome.Breach, "low");
        }
    }

    private static bool IsOutcome(Item item) => item.Concept switch
    {
        "secretion-appearance" => BloodCheck.Appearances.Contains(item.Answer, StringComparer.Ordinal),
        "secretion-amount" => item.Answer is "none" or "scanty" or "moderate" or "copious",
        "secretion-consistency" => item.Answer is "thin" or "thick",
        "suction-reaction" => VitalsChecks.Reactions.Contains(item.Answer),
        "airway-assessed" => item.YesNo == true,
        _ => false,
    };

    // More than 6 sessions of an adult in the 24 h up to this one; silent in both rule sets.
    private static void JudgeOften(Checks checks, IReadOnlyList<Pass> session)
    {
        if (!checks.Choices.SilentToo)
        {
            return;
        }

        var start = session[0].Start;
        var count = checks.Passes.Sessions.Count(s => s[0].Start <= start && start - s[0].Start < TimeSpan.FromHours(24));
        var outcome = checks.Compare(start, b => b == ReferenceAge.Adult ? new Criterion(false, 6m) : null, c => c.Judge(count, null));
        checks.Tell("suctioned-too-often", session[0], outcome, "low", count, "{count}");
    }
}
