using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Whether an order named its catheter before the airway came into use that is in use at the time judged. It ends when another order takes its
/// place, or with that airway where none follows.
/// </summary>
public static class TubeSinceCatheterChosen
{
    public static readonly Measure Measure = new(
        "tube-changed-since-catheter-chosen", Dimension.YesNo, Unit.None, [SubjectKind.Order],
        [Concepts.CatheterSize, Concepts.AirwayType, Concepts.TubeInnerDiameter],
        TimeSpan.Zero, TimeSpan.FromDays(400), ["yes", "no"], MayBeMissing: false,
        "whether an order that names a catheter is older than the airway in use",
        Take)
    {
        ShowsNoValue = true,
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var catheter = CatheterToTubeRatio.OrderedCatheter(subject, timeline, care);
        if (catheter < 0)
        {
            return;
        }

        result.Uses(catheter);
        result.Charted = catheter;
        var airway = LatestSince(timeline.Facts[catheter].EffectiveFrom, care);
        var (renewal, renewed) = Renewal(subject, timeline, care);
        if (airway < 0 || renewed <= care.Airways[airway].From)
        {
            result.Set("no");
            return;
        }

        var span = care.Airways[airway];
        var row = RowOf(timeline, span);
        if (row >= 0)
        {
            result.Uses(row);
        }

        result.Set("yes");
        var end = Math.Min(renewed, span.To);
        result.EndedAt = end == long.MaxValue ? 0 : end;
        result.EndedBy = renewed <= span.To ? renewal : -1;
    }

    private static int LatestSince(long authored, Care care)
    {
        var latest = -1;
        for (var i = 0; i < care.Airways.Length; i++)
        {
            ref readonly var airway = ref care.Airways[i];
            latest = airway.From > authored && airway.From <= care.JudgedAt && airway.To > airway.From ? i : latest;
        }

        return latest;
    }

    private static (int By, long At) Renewal(in Subject subject, in Timeline timeline, Care care)
    {
        var (by, at) = (-1, long.MaxValue);
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind != LinkKind.Replaces || !IsPart(link.To, subject, timeline, care))
            {
                continue;
            }

            var statuses = timeline.Of(Concepts.OrderStatus);
            for (var i = 0; i < statuses.Length; i++)
            {
                if (statuses[i].About == link.From && statuses[i].EffectiveFrom > subject.From && statuses[i].EffectiveFrom < at
                    && statuses[i].Value.Symbol != Answers.Draft)
                {
                    (by, at) = (timeline.FirstOf(Concepts.OrderStatus) + i, statuses[i].EffectiveFrom);
                }
            }
        }

        return (by, at);
    }

    private static bool IsPart(Entity order, in Subject subject, in Timeline timeline, Care care)
    {
        foreach (var index in Own.Facts(subject, care))
        {
            if (timeline.Facts[index].About == order)
            {
                return true;
            }
        }

        return false;
    }

    // What told of the airway: its own row, else a property of its Device.
    private static int RowOf(in Timeline timeline, in AirwaySpan airway)
    {
        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.AirwayType, Concepts.TubeInnerDiameter, Concepts.DeviceKind])
        {
            var facts = timeline.Of(concept);
            for (var i = 0; i < facts.Length; i++)
            {
                if (facts[i].Row == airway.Identity && (facts[i].EffectiveFrom == airway.From || facts[i].Has(FactMarks.Timeless)))
                {
                    return timeline.FirstOf(concept) + i;
                }
            }
        }

        return -1;
    }
}
