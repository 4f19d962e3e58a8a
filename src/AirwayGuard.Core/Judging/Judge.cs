using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// Judges what a patient's rows add up to: a pure function of the timeline, the rules and one time. Each rule judges each
/// subject of its kinds once.
/// </summary>
public static class Judge
{
    public static void Run<TSink>(in Timeline timeline, Care care, RuleSet rules, in JudgeSettings settings, ref TSink sink)
        where TSink : IVerdictSink, allows ref struct
    {
        care.JudgedAt = settings.AsOf;
        care.DueRunList.Clear();
        AirwayNeeds.Find(timeline, care);
        for (var r = 0; r < rules.Rules.Length; r++)
        {
            foreach (var kind in rules.Rules[r].Judges)
            {
                if (kind == SubjectKind.Due)
                {
                    JudgeDue(timeline, care, rules.Rules[r], r, settings, ref sink);
                    continue;
                }

                JudgeKind(timeline, care, rules.Rules[r], r, kind, settings, false, ref sink);
            }

            foreach (var kind in rules.Rules[r].Criteria[0].Measure.ClearedAlsoBy)
            {
                JudgeKind(timeline, care, rules.Rules[r], r, kind, settings, true, ref sink);
            }
        }
    }

    /// <param name="onlyPass">The kind is not judged; what is within the limit may end a finding.</param>
    private static void JudgeKind<TSink>(
        in Timeline timeline, Care care, Rule rule, int index, SubjectKind kind, in JudgeSettings settings, bool onlyPass, ref TSink sink)
        where TSink : IVerdictSink, allows ref struct
    {
        if (kind == SubjectKind.Setting && rule.Holds > TimeSpan.Zero)
        {
            JudgeHeld(timeline, care, rule, index, settings, ref sink);
            return;
        }

        if (kind == SubjectKind.Order && OrdersByAirway.IsMeant(rule))
        {
            OrdersByAirway.Judge(timeline, care, rule, index, settings, ref sink);
            return;
        }

        for (var i = 0; i < Subjects.Count(care, kind); i++)
        {
            var subject = Subjects.At(timeline, care, kind, i);
            if (Applicability.IsNone(timeline, care, rule, subject))
            {
                continue;
            }

            var verdict = JudgeOne(timeline, care, rule, index, subject, settings);
            if (verdict.Outcome == Outcome.Pass || (verdict.Outcome != Outcome.NotApplicable && !onlyPass))
            {
                Accept(verdict, settings, ref sink);
            }
        }
    }

    // Whether a setting has stood is known only beside the others of its line.
    private static void JudgeHeld<TSink>(in Timeline timeline, Care care, Rule rule, int index, in JudgeSettings settings, ref TSink sink)
        where TSink : IVerdictSink, allows ref struct
    {
        var verdicts = new Verdict[care.Settings.Length];
        for (var i = 0; i < verdicts.Length; i++)
        {
            verdicts[i] = JudgeOne(timeline, care, rule, index, Subjects.At(timeline, care, SubjectKind.Setting, i), settings);
        }

        HeldSettings.Apply(timeline, care, rule, settings, verdicts);
        foreach (ref readonly var verdict in verdicts.AsSpan())
        {
            if (verdict.Outcome != Outcome.NotApplicable)
            {
                Accept(verdict, settings, ref sink);
            }
        }
    }

    // Each criterion's measure lists the times that run; what is judged is one such time.
    private static void JudgeDue<TSink>(in Timeline timeline, Care care, Rule rule, int index, in JudgeSettings settings, ref TSink sink)
        where TSink : IVerdictSink, allows ref struct
    {
        foreach (var criterion in rule.Criteria)
        {
            var first = care.DueRunList.Count;
            var judged = -1;
            criterion.Measure.Runs?.Invoke(timeline, care, care.DueRunList);
            for (var i = first; i < care.DueRunList.Count; i++)
            {
                if (judged >= 0 && care.DueRunList[judged].Line == care.DueRunList[i].Line && care.DueRunList[judged].Since == care.DueRunList[i].Since)
                {
                    continue;
                }

                var verdict = DueJudge.One(timeline, care, rule, index, criterion, i, settings);
                if (verdict.Outcome != Outcome.NotApplicable)
                {
                    judged = i;
                    Accept(verdict, settings, ref sink);
                }
            }
        }
    }

    // What a later fact ended is told as a breach, and then as that fact's clearing.
    internal static void Accept<TSink>(in Verdict verdict, in JudgeSettings settings, ref TSink sink)
        where TSink : IVerdictSink, allows ref struct
    {
        var end = verdict.Measured.EndedAt;
        var ended = verdict.Outcome == Outcome.Breach && end > 0 && end <= settings.AsOf;
        if (!ended)
        {
            sink.Accept(end == 0 && verdict.Measured.EndedBy < 0 ? verdict : verdict with { Measured = verdict.Measured with { EndedAt = 0, EndedBy = -1 } });
            return;
        }

        sink.Accept(verdict);
        var cleared = Measured.Start();
        cleared.Clearing = ClearingStrength.Full;
        cleared.Charted = verdict.Measured.EndedBy;
        sink.Accept(verdict with { Outcome = Outcome.Pass, Measured = cleared, Subject = verdict.Subject with { From = end, To = end } });
    }

    internal static Verdict JudgeOne(in Timeline timeline, Care care, Rule rule, int index, in Subject subject, in JudgeSettings settings)
    {
        var line = Lines.Of(rule.Stands, subject, timeline, care);
        var verdict = new Verdict(index, Outcome.NotApplicable, AgeBand.Unknown, Severity.Low, null, Measured.Start(), Missing.Nothing, subject, line, 0);
        if (Guards.Hold(rule.Unless, subject, timeline, care, out var open))
        {
            return verdict;
        }

        var age = BandChoice.Of(timeline, subject);
        verdict = OrderTexts.Beside(timeline, care, rule, age, settings, JudgeCriteria(timeline, care, rule, age, settings, verdict));
        if (verdict.Outcome != Outcome.NotApplicable && !rule.Criteria[0].Measure.AsksOfCharting && LackOfUse(subject, care) is not Missing.Nothing and var lack)
        {
            verdict = verdict with { Outcome = Outcome.CannotTell, Missing = lack };
        }

        return Wait(verdict.Outcome == Outcome.Breach && open != Missing.Nothing ? verdict with { Outcome = Outcome.CannotTell, Missing = open } : verdict, rule, settings);
    }

    internal static Verdict JudgeCriteria(in Timeline timeline, Care care, Rule rule, in BandChoice age, in JudgeSettings settings, in Verdict start)
    {
        var verdict = start;
        foreach (var criterion in rule.Criteria)
        {
            verdict = Combine(verdict, JudgeCriterion(timeline, care, rule, criterion, age, settings, verdict));
        }

        return verdict;
    }

    private static Missing LackOfUse(in Subject subject, Care care) => subject.Kind switch
    {
        SubjectKind.Pass when care.Passes[subject.Index].UseUnknown => Missing.PassUse,
        SubjectKind.Session when care.Sessions[subject.Index].UseUnknown => Missing.PassUse,
        SubjectKind.Order when care.Orders[subject.Index].UseUnknown => Missing.OrderUse,
        _ => Missing.Nothing,
    };

    // Value and limit are those of the first criterion that breached, the severity the highest of those that did.
    private static Verdict Combine(in Verdict first, in Verdict next)
    {
        if (first.Outcome == Outcome.Breach)
        {
            return next.Outcome == Outcome.Breach && next.Severity > first.Severity ? first with { Severity = next.Severity } : first;
        }

        return next.Outcome == Outcome.Breach || first.Outcome == Outcome.NotApplicable
            || (first.Outcome == Outcome.Pass && next.Outcome == Outcome.CannotTell) ? next : first;
    }

    private static Verdict JudgeCriterion(
        in Timeline timeline, Care care, Rule rule, Criterion criterion, in BandChoice age, in JudgeSettings settings, in Verdict start)
    {
        if (!age.AnyJudged(criterion.Limits))
        {
            return start with { Outcome = Outcome.NotApplicable };
        }

        var measured = Measured.Start();
        criterion.Measure.Function(start.Subject, timeline, care, ref measured);
        // An order allows up to what it names, so that is judged as a number; not where what is not charted bounds it.
        measured.AllowsUpTo = start.Subject.Kind == SubjectKind.Order && measured.OpenIs == Missing.Nothing
            && measured.Comparator is Comparator.Below or Comparator.AtMost;
        var isAbsence = !measured.HasValue && measured.Missing == Missing.Nothing;
        var limit = age.Limit(criterion.Limits, settings.UnknownAge, rule.NeedsAge);
        if (isAbsence && AnyLimit(criterion.Limits)?.Comparison != Comparison.Missing)
        {
            return start with { Outcome = Outcome.NotApplicable };
        }

        var verdict = start with { Measured = measured, Band = age.Band };
        if (measured.Missing != Missing.Nothing)
        {
            return IsAllowedAnyhow(timeline, care, rule, start.Subject) ? start with { Outcome = Outcome.NotApplicable } : verdict with { Outcome = Outcome.CannotTell, Missing = measured.Missing };
        }

        if (limit is null)
        {
            return JudgeWithoutAge(timeline, care, rule, criterion, age, verdict with { Outcome = Outcome.CannotTell, Missing = age.Lacks });
        }

        limit = Tightened(timeline, care, rule, age, settings, start.Subject, limit, ref measured, out var undecided, out var open);
        var compared = Compare(verdict with { Measured = measured, Limit = limit }, criterion);
        if (undecided is not null && compared.Outcome is Outcome.Pass or Outcome.NotApplicable
            && Compare(compared with { Limit = undecided }, criterion).Outcome is Outcome.Breach or Outcome.CannotTell)
        {
            // Within the one limit and over the other: which of them holds stands in a row that cannot be read.
            return compared with { Outcome = Outcome.CannotTell, Missing = open };
        }

        if (compared.Outcome == Outcome.Breach && limit.Comparison == Comparison.Missing
            && compared.Measured.EndedAt > 0 && compared.Measured.EndedAt <= start.Subject.To + rule.Waits.Ticks)
        {
            // Charted while it was waited for, it is not missing.
            return compared with { Outcome = Outcome.Pass, Measured = compared.Measured with { EndedAt = 0, EndedBy = -1 } };
        }

        return compared.Outcome == Outcome.Breach && rule.Allow.Length > 0 ? Allowed(timeline, care, rule, criterion, compared) : compared;
    }

    private static Verdict JudgeWithoutAge(in Timeline timeline, Care care, Rule rule, Criterion criterion, in BandChoice age, in Verdict open)
    {
        var measured = open.Measured;
        if (AgelessLimits.Of(timeline, care, rule, criterion.Limits, age, open.Subject, ref measured, out var isWhole) is not { } limit)
        {
            return open;
        }

        var compared = Compare(open with { Measured = measured, Limit = limit, Missing = Missing.Nothing }, criterion);
        compared = compared.Outcome == Outcome.Breach && rule.Allow.Length > 0 ? Allowed(timeline, care, rule, criterion, compared) : compared;
        return isWhole || compared.Outcome == Outcome.Breach ? compared : open;
    }

    // With such a reason it passes whatever it was.
    private static bool IsAllowedAnyhow(in Timeline timeline, Care care, Rule rule, in Subject subject)
    {
        foreach (var allowance in rule.Allow)
        {
            if (allowance.Limits is null && Reasons.With(allowance.Reason, subject, timeline, care) >= 0)
            {
                return true;
            }
        }

        return false;
    }

    // A reason charted with it lets it pass, or sets the looser limit it is then held to; one charted within a day after ends it.
    private static Verdict Allowed(in Timeline timeline, Care care, Rule rule, Criterion criterion, in Verdict breach)
    {
        var verdict = breach;
        foreach (var allowance in rule.Allow)
        {
            var with = Reasons.With(allowance.Reason, breach.Subject, timeline, care);
            var after = with < 0 ? Reasons.After(allowance.Reason, breach.Subject, timeline, care) : -1;
            if (with < 0 && after < 0)
            {
                continue;
            }

            var measured = verdict.Measured;
            measured.Circumstance = with >= 0 ? with : measured.Circumstance;
            var looser = allowance.Limits?.For(breach.Band);
            var eased = allowance.Limits is null ? breach with { Measured = measured, Outcome = Outcome.Pass }
                : looser is null ? breach
                : Compare(breach with { Measured = measured, Limit = looser }, criterion);
            if (with >= 0)
            {
                verdict = eased;
            }
            else if (eased.Outcome == Outcome.Pass && (measured.EndedAt == 0 || timeline.Facts[after].EffectiveFrom < measured.EndedAt))
            {
                measured.EndedAt = timeline.Facts[after].EffectiveFrom;
                measured.EndedBy = after;
                verdict = verdict with { Measured = measured };
            }

            if (verdict.Outcome == Outcome.Pass)
            {
                break;
            }
        }

        return verdict;
    }

    internal static Limit? AnyLimit(BandLimits limits) =>
        limits.For(AgeBand.Adult) ?? limits.For(AgeBand.Child) ?? limits.For(AgeBand.Infant) ?? limits.For(AgeBand.Neonate);

    /// <param name="undecided">The limit it would be, if a circumstance of which nobody can tell held; null without one.</param>
    private static Limit Tightened(
        in Timeline timeline, Care care, Rule rule, in BandChoice age, in JudgeSettings settings, in Subject subject, Limit limit,
        ref Measured measured, out Limit? undecided, out Missing open)
    {
        (undecided, open) = (null, Missing.Nothing);
        var strictest = limit;
        foreach (var circumstance in rule.Tighten)
        {
            if (circumstance.Limits is null || age.Limit(circumstance.Limits, settings.UnknownAge, false) is not { } tighter)
            {
                continue;
            }

            if (Guards.Hold(circumstance.When, subject, timeline, care, ref measured, out var unread))
            {
                (limit, strictest) = (LimitCheck.Stricter(limit, tighter), LimitCheck.Stricter(strictest, tighter));
            }
            else if (unread != Missing.Nothing)
            {
                strictest = LimitCheck.Stricter(strictest, tighter);
                (undecided, open) = (strictest, unread);
            }
        }

        undecided = undecided is null ? null : strictest;
        return limit;
    }

    internal static Verdict Compare(in Verdict verdict, Criterion criterion)
    {
        var measured = verdict.Measured;
        var limit = verdict.Limit!;
        var outcome = LimitCheck.Check(measured, limit);
        if (measured.OverIs != Missing.Nothing && outcome != Outcome.Breach)
        {
            // Divided it is within; undivided it must be too, else nobody can tell.
            var whole = measured with { Amount = measured.Could ?? measured.Amount, Divisor = 1m };
            if (LimitCheck.Check(whole, limit) != Outcome.Pass)
            {
                return verdict with { Outcome = Outcome.CannotTell, Missing = measured.OverIs };
            }
        }

        if (outcome == Outcome.CannotTell)
        {
            return verdict with { Outcome = outcome, Missing = measured.UnitIsMissing ? Missing.VacuumUnit : measured.OpenIs != Missing.Nothing ? measured.OpenIs : Missing.ExactValue };
        }

        if (outcome == Outcome.Pass)
        {
            return measured.WithinIsNotJudged ? verdict with { Outcome = Outcome.NotApplicable }
                : measured.WithinIs != Missing.Nothing && !ReachesOver(measured, limit) ? verdict with { Outcome = Outcome.CannotTell, Missing = measured.WithinIs }
                : verdict with { Outcome = outcome };
        }

        if (measured.Before is { } before && LimitCheck.Check(measured with { Amount = before, Comparator = Comparator.Exactly }, limit) == Outcome.Breach)
        {
            return verdict with { Outcome = Outcome.Pass };
        }

        return measured.BreachIs != Missing.Nothing
            ? verdict with { Outcome = Outcome.CannotTell, Missing = measured.BreachIs }
            : verdict with { Outcome = outcome, Severity = SeverityOf(criterion.Severity, measured, limit) };
    }

    private static bool ReachesOver(in Measured measured, Limit limit) =>
        measured.Reaches is { } reaches && LimitCheck.Check(measured with { Amount = reaches, Divisor = 1m }, limit) == Outcome.Breach;

    private static Severity SeverityOf(SeveritySteps steps, in Measured measured, Limit limit)
    {
        var severity = steps.Base;
        foreach (var step in steps.Steps)
        {
            if (measured.HasValue && LimitCheck.IsAbove(measured, step.Above, limit.Unit))
            {
                severity = step.Severity > severity ? step.Severity : severity;
            }
        }

        return severity;
    }

    internal static Verdict Wait(in Verdict verdict, Rule rule, in JudgeSettings settings)
    {
        var restsOnMissing = verdict.Outcome == Outcome.CannotTell
            || (verdict.Outcome == Outcome.Breach && verdict.Limit!.Comparison == Comparison.Missing && !verdict.Measured.Omitted);
        var due = verdict.Subject.To + rule.Waits.Ticks;
        return restsOnMissing && !settings.WaitsAreOver && due > settings.AsOf
            ? verdict with { Outcome = Outcome.NotYet, DueAt = due }
            : verdict;
    }
}
