using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Minutes from a session's last pass to the last inspired oxygen, at most two hours after it, that is charted more than 0.02 over
/// the baseline of the session; 0 where none is. Oxygen charted as pre-oxygenation of a later pass is left out.
/// </summary>
public static class OxygenRaisedAfter
{
    /// <summary>Charted more than this over the baseline counts as raised.</summary>
    private const decimal Raised = 0.02m;

    private const long LooksFor = 2 * TimeSpan.TicksPerHour;

    public static readonly Measure Measure = new(
        "time-oxygen-raised-after-suction", Dimension.Duration, Unit.Minute, [SubjectKind.Due],
        [Concepts.Fio2, Concepts.Preoxygenation, Concepts.SuctionPass, Concepts.PassDuration],
        TimeSpan.FromHours(4), TimeSpan.FromHours(2), [], MayBeMissing: false,
        "minutes from a session's last pass to the last inspired oxygen charted over its baseline, within two hours",
        Take)
    {
        Runs = List,
    };

    private static void List(in Timeline timeline, Care care, ICollection<DueRun> into)
    {
        foreach (ref readonly var session in care.Sessions)
        {
            if (session.UseUnknown)
            {
                continue;
            }

            var index = care.PassesBySession[session.FirstPass + session.PassCount - 1];
            ref readonly var last = ref care.Passes[index];
            into.Add(new DueRun(
                care.EpisodeLine(last.From, timeline.Patient), PassTimes.After(timeline, care, last), long.MaxValue, long.MinValue, RowOf(timeline, care, last), -1,
                last.OffsetMinutes));
        }
    }

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var run = ref care.DueRuns[subject.Index];
        ref readonly var session = ref care.Sessions[care.Passes[care.PassOf(run.Fact)].Session];
        if (!TryBaseline(timeline, care, session, out var baseline, out var before))
        {
            result.Missing = Missing.BaselineOxygen;
            return;
        }

        var facts = timeline.Of(Concepts.Fio2);
        var until = run.Since + LooksFor;
        var (last, lastRaised) = (-1, -1);
        for (var i = Timeline.FirstAfter(facts, run.Since); i < facts.Length && (facts[i].EffectiveFrom <= until || (lastRaised >= 0 && result.EndedAt == 0)); i++)
        {
            if (facts[i].About != timeline.Patient || !facts[i].Value.IsNumber || !Fractions.TryInspiredOxygen(facts[i].Value.Amount, out var fraction)
                || BaselineOxygen.IsPreoxygenation(timeline, care, facts[i]))
            {
                continue;
            }

            var isWithin = facts[i].EffectiveFrom <= until;
            last = isWithin ? i : last;
            if (fraction > before + Raised && isWithin)
            {
                (lastRaised, result.EndedAt, result.EndedBy) = (i, 0, -1);
            }
            else if (fraction <= before + Raised && lastRaised >= 0 && result.EndedAt == 0 && facts[i].EffectiveFrom > facts[lastRaised].EffectiveFrom)
            {
                (result.EndedAt, result.EndedBy) = (facts[i].EffectiveFrom, timeline.FirstOf(Concepts.Fio2) + i);
            }
        }

        result.Charted = lastRaised < 0 ? -1 : timeline.FirstOf(Concepts.Fio2) + lastRaised;
        if (lastRaised >= 0)
        {
            result.Uses(result.Charted);
            result.Uses(baseline);
        }

        result.Set(lastRaised < 0 ? 0m : facts[lastRaised].EffectiveFrom - run.Since, Unit.Minute, TimeSpan.TicksPerMinute);
        // What was charted too early says nothing of later: it is back only where a later row says so.
        result.WithinIs = Missing.OxygenAfterwards;
        result.Reaches = last < 0 ? 0m : (decimal)(facts[last].EffectiveFrom - run.Since) / TimeSpan.TicksPerMinute;
    }

    // The oxygen before the session's first pass: what is charted between its passes is already raised.
    private static bool TryBaseline(in Timeline timeline, Care care, in SessionSpan session, out int baseline, out decimal fraction)
    {
        baseline = BaselineOxygen.Of(timeline, care, care.Passes[care.PassesBySession[session.FirstPass]].From);
        fraction = 0m;
        return baseline >= 0 && Fractions.TryInspiredOxygen(timeline.Facts[baseline].Value.Amount, out fraction);
    }

    private static int RowOf(in Timeline timeline, Care care, in PassSpan pass)
    {
        foreach (var index in care.MembersOf(pass))
        {
            if (timeline.Facts[index].Row == pass.Anchor)
            {
                return index;
            }
        }

        return care.MembersOf(pass)[0];
    }
}
