using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>PEEP, cm[H2O], that suction with an open system interrupts: the latest at the start, at most 4 h old; 0 with a closed system.</summary>
public static class PeepAtOpenSuction
{
    public static readonly Measure Measure = new(
        "peep-at-open-suction", Dimension.Pressure, Unit.CmH2O, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.Peep, Concepts.SuctionSystem],
        TimeSpan.FromHours(4), TimeSpan.Zero, [], MayBeMissing: false,
        "PEEP at the start of suction with an open system; 0 with a closed one",
        Take)
    {
        ClearedAlsoBy = [SubjectKind.Support],
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var peep = At(timeline, subject.From);
        if (!OpenSuction.IsJudged(subject, timeline, care, peep, Missing.Peep, ref result))
        {
            return;
        }

        var value = timeline.Facts[peep].Value;
        result.Set(value.Amount, value.Unit);
        result.Comparator = value.Comparator;
    }

    // At one instant a setting before a measurement.
    private static int At(in Timeline timeline, long at)
    {
        var facts = timeline.Of(Concepts.Peep);
        var best = -1;
        for (var i = Timeline.FirstAfter(facts, at) - 1; i >= 0; i--)
        {
            if (facts[i].EffectiveFrom < at - CareTimes.OxygenHolds || (best >= 0 && facts[i].EffectiveFrom < facts[best].EffectiveFrom))
            {
                break;
            }

            if (facts[i].About == timeline.Patient && facts[i].Value.IsNumber
                && (best < 0 || (facts[i].Has(FactMarks.Setting) && !facts[best].Has(FactMarks.Setting))))
            {
                best = i;
            }
        }

        return best < 0 ? -1 : timeline.FirstOf(Concepts.Peep) + best;
    }
}
