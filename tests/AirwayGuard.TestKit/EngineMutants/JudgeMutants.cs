using System.Collections.Immutable;

namespace AirwayGuard.TestKit.EngineMutants;

/// <summary>Mutants of how criteria, circumstances, reasons and waits come to one verdict.</summary>
internal static class JudgeMutants
{
    public static ImmutableArray<EngineMutant> All { get; } =
    [
        new("loose-row-judged", "Judging/Judge.cs",
            "(verdict.Outcome != Outcome.NotApplicable && !onlyPass)",
            "verdict.Outcome != Outcome.NotApplicable",
            "A row that may only end a finding raises one of its own."),
        new("exception-unread-passes", "Judging/Judge.cs",
            "open != Missing.Nothing ? verdict with { Outcome = Outcome.CannotTell, Missing = open }",
            "open != Missing.Nothing ? verdict with { Outcome = Outcome.Pass }",
            "A breach passes since an exception from the check cannot be read."),
        new("use-of-pass-assumed", "Judging/Judge.cs",
            "SubjectKind.Pass when care.Passes[subject.Index].UseUnknown => Missing.PassUse,",
            "SubjectKind.Pass when care.Passes[subject.Index].UseUnknown => Missing.Nothing,",
            "A pass of which nobody knows whether it served the airway is judged as one that did."),
        new("one-criterion-hides-another", "Judging/Judge.cs",
            "|| (first.Outcome == Outcome.Pass && next.Outcome == Outcome.CannotTell) ? next : first;",
            "? next : first;",
            "What one criterion allows hides that nobody can tell of the other."),
        new("lower-severity-kept", "Judging/Judge.cs",
            "next.Severity > first.Severity ? first with",
            "next.Severity < first.Severity ? first with",
            "Of two breached criteria the milder one says how bad it is."),
        new("missing-is-a-pass", "Judging/Judge.cs",
            "start with { Outcome = Outcome.NotApplicable } : verdict with { Outcome = Outcome.CannotTell, Missing = measured.Missing };",
            "start with { Outcome = Outcome.NotApplicable } : verdict with { Outcome = Outcome.Pass };",
            "Charting that lacks what the check needs passes."),
        new("order-up-to-not-allowed", "Judging/Judge.cs",
            "measured.AllowsUpTo = start.Subject.Kind == SubjectKind.Order &&",
            "measured.AllowsUpTo = start.Subject.Kind == SubjectKind.Setting &&",
            "An order of up to 200 mm[Hg] is no breach, since nobody can tell what it comes to."),
        new("within-the-wait-by-a-step", "Judging/Judge.cs",
            "compared.Measured.EndedAt <= start.Subject.To + rule.Waits.Ticks",
            "compared.Measured.EndedAt < start.Subject.To + rule.Waits.Ticks",
            "What was charted in time, at the last instant, is told as missing."),
        new("late-reason-passes", "Judging/Judge.cs",
            """
                        if (with >= 0)
                        {
                            verdict = eased;
            """,
            """
                        if (with >= 0 || eased.Outcome == Outcome.Pass)
                        {
                            verdict = eased;
            """,
            "A reason written afterwards makes a breach never have been."),
        new("circumstance-tightens-nothing", "Judging/Judge.cs",
            "(limit, strictest) = (LimitCheck.Stricter(limit, tighter), LimitCheck.Stricter(strictest, tighter));",
            "(limit, strictest) = (limit, LimitCheck.Stricter(strictest, tighter));",
            "With monitored intracranial pressure the ordinary limit holds."),
        new("unread-circumstance-absent", "Judging/Judge.cs",
            "(undecided, open) = (strictest, unread);",
            "(undecided, open) = (null, unread);",
            "A circumstance that cannot be read counts as absent, and what it would forbid passes."),
        new("sum-passes-undivided", "Judging/Judge.cs",
            "if (LimitCheck.Check(whole, limit) != Outcome.Pass)",
            "if (LimitCheck.Check(whole, limit) == Outcome.CannotTell)",
            "One long pass among several hides in their mean."),
        new("within-is-certain", "Judging/Judge.cs",
            "!ReachesOver(measured, limit) ? verdict with { Outcome = Outcome.CannotTell, Missing = measured.WithinIs }",
            "!ReachesOver(measured, limit) ? verdict with { Outcome = Outcome.Pass }",
            "A gauge read while air flows shows less than the vacuum there is, and passes."),
        new("milder-step", "Judging/Judge.cs",
            "severity = step.Severity > severity ? step.Severity : severity;",
            "severity = step.Severity < severity ? step.Severity : severity;",
            "The worst breaches are told as the mildest."),
        new("wait-a-step-long", "Judging/Judge.cs",
            """
            due > settings.AsOf
                        ?
            """,
            """
            due >= settings.AsOf
                        ?
            """,
            "What is due at this instant is told with the next look only."),
        new("absence-without-a-wait", "Judging/Judge.cs",
            "return restsOnMissing && !settings.WaitsAreOver",
            "return restsOnMissing && verdict.Outcome == Outcome.CannotTell && !settings.WaitsAreOver",
            "What is charted a minute later is told as missing at once."),
        new("charted-omission-waits", "Judging/Judge.cs",
            "verdict.Limit!.Comparison == Comparison.Missing && !verdict.Measured.Omitted);",
            "verdict.Limit!.Comparison == Comparison.Missing);",
            "What is charted as not done is waited for all the same."),
        new("guard-holds-uncharted", "Judging/Guards.cs",
            "if (!measured.HasValue || LimitCheck.Check(measured, guard.Limit) != Outcome.Breach)",
            "if (measured.HasValue && LimitCheck.Check(measured, guard.Limit) != Outcome.Breach)",
            "A circumstance of which nothing is charted counts as present."),
        new("guards-any-for-all", "Judging/Guards.cs",
            "return open == Missing.Nothing;",
            "return true;",
            "An exception that nobody can read exempts as if it held."),
        new("short-excursion-stands", "Judging/HeldSettings.cs",
            "if (end < stands)",
            "if (end <= stands)",
            "A stream that is over its limit for exactly as long as the rule says is no breach."),
        new("stay-of-device-mixed", "Judging/Lines.cs",
            "return care.Settings[subject.Index].Line;",
            "return care.EpisodeLine(subject.From, timeline.Patient);",
            "A safe reading at one regulator ends what is told of another."),
        new("draft-gives-a-reason", "Judging/Reasons.cs",
            "if (status.About == order && status.Value.Symbol == Answers.Draft)",
            "if (status.About == order && status.Value.Symbol != Answers.Draft)",
            "A draft that nobody signed allows what it names a reason for."),
        new("catheter-need-later", "Judging/AirwayNeeds.cs",
            "known is { } one && one.At <= other.At ? one : other;",
            "known is { } one && one.At >= other.At ? one : other;",
            "A tube without a charted size is told at the last order for a catheter instead of the first."),
    ];
}
