using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>Judges time that runs until something is charted: it breaches once, at the instant it falls due, without a row of its own.</summary>
internal static class DueJudge
{
    /// <param name="run">Index of the run among the care's.</param>
    public static Verdict One(in Timeline timeline, Care care, Rule rule, int index, Criterion criterion, int run, in JudgeSettings settings)
    {
        var due = care.DueRuns[run];
        var subject = new Subject(SubjectKind.Due, run, due.Line.Entity, due.Since, due.Since, due.OffsetMinutes);
        var measured = Measured.Start();
        if (due.Fact >= 0)
        {
            measured.Uses(due.Fact);
            measured.Charted = due.Fact;
        }

        var age = BandChoice.Of(timeline, subject);
        var verdict = new Verdict(index, Outcome.NotApplicable, age.Band, Severity.Low, null, measured, Missing.Nothing, subject, due.Line, 0);
        if (!age.AnyJudged(criterion.Limits) || Guards.Hold(rule.Unless, subject, timeline, care, out _))
        {
            return verdict;
        }

        if (due.Lacks != Missing.Nothing)
        {
            return Judge.Wait(verdict with { Outcome = Outcome.CannotTell, Missing = due.Lacks }, rule, settings);
        }

        if (age.Limit(criterion.Limits, settings.UnknownAge, rule.NeedsAge) is not { } limit)
        {
            var open = Judge.Wait(
                verdict with { Outcome = Outcome.CannotTell, Missing = age.Lacks }, rule, settings);
            return age.Limit(criterion.Limits, UnknownAge.StrictestBand, needsAge: false) is { } earliest
                ? Dated(open, Math.Max(due.NotBefore, After(due.Since, earliest.Low, earliest.Unit)))
                : open;
        }

        criterion.Measure.Function(subject, timeline, care, ref measured);
        var over = After(due.Since, limit.Low, limit.Unit);
        var falls = Math.Max(due.NotBefore, over);
        verdict = verdict with { Measured = measured, Limit = limit };
        if (falls >= due.NotAfter || falls < due.OnlyFrom)
        {
            return verdict;
        }

        if (measured.Missing != Missing.Nothing)
        {
            return Dated(Judge.Wait(verdict with { Outcome = Outcome.CannotTell, Missing = measured.Missing }, rule, settings), falls);
        }

        // What only ran too long is of the age at which it falls due.
        return measured.HasValue
            ? Dated(Judge.Wait(Judge.Compare(verdict, criterion), rule, settings), falls)
            : Elapsed(verdict with { Band = BandChoice.Of(timeline, subject with { From = falls }).Band }, rule, criterion, due, over, settings);
    }

    // What is open waited from the instant the time runs from; told is when it fell due.
    private static Verdict Dated(in Verdict verdict, long falls) =>
        verdict.Outcome == Outcome.NotYet ? verdict : verdict with { Subject = verdict.Subject with { From = falls, To = falls } };

    private static Verdict Elapsed(in Verdict verdict, Rule rule, Criterion criterion, in DueRun due, long over, in JudgeSettings settings)
    {
        var falls = Math.Max(due.NotBefore, over);
        if (due.Until <= falls + due.Slack)
        {
            return verdict with { Outcome = Outcome.Pass };
        }

        // At its last instant it has run as long as allowed; longer begins with the next millisecond, or with what held it back.
        var surely = Math.Max(falls, over + due.Slack + TimeSpan.TicksPerMillisecond);
        if (due.InSlack != Missing.Nothing && settings.AsOf <= over + due.Slack)
        {
            var open = verdict with { Outcome = Outcome.CannotTell, Missing = due.InSlack, DueAt = surely, Subject = verdict.Subject with { From = falls, To = falls } };
            return settings.AsOf > over && settings.AsOf >= falls
                ? Judge.Wait(open, rule, settings)
                : verdict with { Outcome = Outcome.NotYet, DueAt = Math.Max(falls, over + TimeSpan.TicksPerMillisecond) };
        }

        if (settings.AsOf <= over + due.Slack || settings.AsOf < falls)
        {
            return verdict with { Outcome = Outcome.NotYet, DueAt = surely };
        }

        if (due.Open != Missing.Nothing)
        {
            return Judge.Wait(
                verdict with { Outcome = Outcome.CannotTell, Missing = due.Open, Subject = verdict.Subject with { From = falls, To = falls } }, rule, settings);
        }

        var measured = verdict.Measured;
        measured.Set(verdict.Limit!.Low, verdict.Limit.Unit);
        measured.EndedAt = due.Until == long.MaxValue ? 0 : due.Until;
        measured.EndedBy = due.EndedBy;
        return verdict with
        {
            Outcome = Outcome.Breach,
            Severity = criterion.Severity.Base,
            Measured = measured,
            Subject = verdict.Subject with { From = falls, To = falls },
        };
    }

    /// <summary>An instant later by an amount of time; months by the calendar.</summary>
    internal static long After(long since, decimal amount, Unit unit) => unit switch
    {
        Unit.Month => new DateTime(since, DateTimeKind.Utc).AddMonths((int)amount).Ticks,
        Unit.Week => since + (long)(amount * 7 * TimeSpan.TicksPerDay),
        Unit.Day => since + (long)(amount * TimeSpan.TicksPerDay),
        Unit.Hour => since + (long)(amount * TimeSpan.TicksPerHour),
        Unit.Minute => since + (long)(amount * TimeSpan.TicksPerMinute),
        _ => since + (long)(amount * TimeSpan.TicksPerSecond),
    };
}
