using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Doubt about the unit of a vacuum (docs/meanings.md; the figures are common practice, no source). Nothing is rewritten: a doubtful
/// reading is named, and not judged against a ceiling.
/// </summary>
public static class UnitDoubt
{
    /// <summary>Below this, in mm[Hg], a vacuum other than 0 clears nothing: more likely another unit was meant.</summary>
    public const decimal LeastMmHg = 20m;

    /// <summary>One atmosphere, mm[Hg]: no vacuum is deeper.</summary>
    public const decimal MostMmHg = 760m;

    private static readonly Unit[] Listed = [Unit.MmHg, Unit.Kilopascal, Unit.CmH2O, Unit.InHg, Unit.CmHg, Unit.Millibar, Unit.Hectopascal];

    /// <summary>Doubtful by itself: no or another unit, or an impossible size.</summary>
    public static bool IsDoubtfulAlone(in FactValue value)
    {
        if (!Units.IsPressure(value.Unit))
        {
            return true;
        }

        var mmHg = Vacuum.ToMmHg(value.Amount, value.Unit);
        return mmHg > MostMmHg || (mmHg < LeastMmHg && mmHg != 0m);
    }

    /// <summary>Doubtful by itself or against the same row's previous reading.</summary>
    internal static bool IsDoubtful(in Timeline timeline, int index)
    {
        ref readonly var fact = ref timeline.Facts[index];
        return IsDoubtfulAlone(fact.Value) || HasChangedUnit(timeline, fact);
    }

    /// <summary>The weakest vacuum, mm[Hg], that a number without unit can mean; 0 where it is possible in no unit.</summary>
    internal static decimal LeastPossibleMmHg(decimal magnitude)
    {
        var least = 0m;
        foreach (var unit in Listed)
        {
            var mmHg = Vacuum.ToMmHg(magnitude, unit);
            if (mmHg <= MostMmHg && (least == 0m || mmHg < least))
            {
                least = mmHg;
            }
        }

        return least;
    }

    private static bool HasChangedUnit(in Timeline timeline, in Fact fact)
    {
        var readings = timeline.Of(fact.Concept);
        for (var i = Timeline.FirstAfter(readings, fact.EffectiveFrom - 1) - 1; i >= 0; i--)
        {
            ref readonly var earlier = ref readings[i];
            if (!earlier.Value.IsNumber || earlier.Value.Symbol != fact.Value.Symbol || earlier.About != fact.About)
            {
                continue;
            }

            return Units.IsPressure(earlier.Value.Unit) && earlier.Value.Unit != fact.Value.Unit
                && IsUsual(Vacuum.ToMmHg(fact.Value.Amount, earlier.Value.Unit)) && !IsUsual(Vacuum.ToMmHg(fact.Value.Amount, fact.Value.Unit));
        }

        return false;
    }

    private static bool IsUsual(decimal mmHg) => mmHg is >= 40m and <= 700m;
}
