using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// An active order is held against the airway in use now, whichever was in use when it was written. What breached against an airway before was
/// found all the same: it stood on that airway and ends with it.
/// </summary>
internal static class OrdersByAirway
{
    public static bool IsMeant(Rule rule)
    {
        foreach (var criterion in rule.Criteria)
        {
            if (criterion.Measure.GoesByAirway)
            {
                return true;
            }
        }

        return false;
    }

    public static void Judge<TSink>(in Timeline timeline, Care care, Rule rule, int index, in JudgeSettings settings, ref TSink sink)
        where TSink : IVerdictSink, allows ref struct
    {
        for (var i = 0; i < care.Orders.Length; i++)
        {
            var order = Subjects.At(timeline, care, SubjectKind.Order, i);
            var against = Against(order, order.Airway, care);
            var now = Applicability.IsNone(timeline, care, rule, against) ? default : Judging.Judge.JudgeOne(timeline, care, rule, index, against, settings);
            if (now.Outcome != Outcome.NotApplicable)
            {
                Judging.Judge.Accept(now, settings, ref sink);
            }

            JudgeBefore(timeline, care, rule, index, order, now, settings, ref sink);
        }
    }

    // Only a breach is told of an airway before: what could not be told of it is asked no longer.
    private static void JudgeBefore<TSink>(
        in Timeline timeline, Care care, Rule rule, int index, in Subject order, in Verdict now, in JudgeSettings settings, ref TSink sink)
        where TSink : IVerdictSink, allows ref struct
    {
        var isFound = now.Outcome == Outcome.Breach;
        var told = isFound ? new HashSet<Line> { now.Line } : null;
        for (var airway = order.Airway; airway >= 0 && !(isFound && rule.Stands == Standing.Once);)
        {
            airway = care.AirwayOfOrder(order.From, airway);
            if (airway < 0)
            {
                return;
            }

            var before = Judging.Judge.JudgeOne(timeline, care, rule, index, Against(order, airway, care) with { IsSuperseded = isFound }, settings);
            if (before.Outcome != Outcome.Breach || !(told ??= []).Add(before.Line))
            {
                // A tube that is put in again goes on with its line, and is told of once.
                continue;
            }

            isFound = true;
            Judging.Judge.Accept(rule.Stands == Standing.Once ? EndedBy(before, care.Airways[airway].To) : before, settings, ref sink);
        }
    }

    // What is missing is waited for from when it was first needed.
    private static Subject Against(in Subject order, int airway, Care care) =>
        airway < 0 ? order : order with { Airway = airway, To = Math.Max(order.From, care.Airways[airway].From) };

    private static Verdict EndedBy(in Verdict verdict, long end)
    {
        var measured = verdict.Measured;
        if (measured.EndedAt == 0 || measured.EndedAt > end)
        {
            (measured.EndedAt, measured.EndedBy) = (end, -1);
        }

        return verdict with { Measured = measured };
    }
}
