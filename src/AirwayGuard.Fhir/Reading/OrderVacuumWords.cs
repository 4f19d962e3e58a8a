using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The vacuum an order allows, as judged: of several the deepest, of a range whichever end is deeper; magnitudes in one unit.</summary>
/// <param name="Unread">The lower end as written, where it cannot be said in the unit of the upper one.</param>
internal readonly record struct OrderVacuumWords(decimal? Low, decimal? High, bool IsExclusive, Unit Unit, string? Unread)
{
    public static OrderVacuumWords Of(Core.Ports.Reading reading)
    {
        var best = -1;
        for (var i = 0; i < reading.Facts.Count; i++)
        {
            var fact = reading.Facts[i];
            if (fact.Concept == Concepts.OrderVacuumHigh && fact.Value.IsNumber && (best < 0 || IsJudgedBefore(fact.Value, reading.Facts[best].Value)))
            {
                best = i;
            }
        }

        if (best < 0)
        {
            return LowEnd(reading, _ => true) is { } only ? new(only.Magnitude, null, false, only.Unit, null) : default;
        }

        var high = reading.Facts[best].Value;
        var ordinal = reading.Facts[best].Id.Ordinal;
        var end = LowEnd(reading, fact => fact.Id.Ordinal == ordinal)
            ?? LowEnd(reading, fact => !reading.Facts.Exists(one => one.Id.Ordinal == fact.Id.Ordinal && one.Concept == Concepts.OrderVacuumHigh));
        return end is { } low ? Between(low, high) : new(null, high.Magnitude, high.Comparator == Comparator.Below, high.Unit, null);
    }

    /// <summary>Whether the first is the one judged: a number without doubt about its unit before one with, then the deeper.</summary>
    public static bool IsJudgedBefore(in FactValue one, in FactValue other) => UnitDoubt.IsDoubtfulAlone(one) != UnitDoubt.IsDoubtfulAlone(other)
        ? UnitDoubt.IsDoubtfulAlone(other)
        : VacuumPressure.Depth(one) > VacuumPressure.Depth(other);

    private static OrderVacuumWords Between(in FactValue low, in FactValue high)
    {
        if (low.Unit != high.Unit && !(Units.IsPressure(low.Unit) && Units.IsPressure(high.Unit)))
        {
            var written = low.Unit == Unit.None ? "" : " " + Units.Ucum(low.Unit);
            return new(null, high.Magnitude, high.Comparator == Comparator.Below, high.Unit, string.Create(CultureInfo.InvariantCulture, $"{low.Amount}{written}"));
        }

        // The deeper end of a range charted with minus signs stands as its lower one.
        var (weaker, deeper) = low.Comparator == Comparator.Exactly && !UnitDoubt.IsDoubtfulAlone(low) && VacuumPressure.Depth(low) > VacuumPressure.Depth(high) ? (high, low) : (low, high);
        var end = weaker.Unit == deeper.Unit ? weaker.Magnitude : Math.Round(Vacuum.Convert(weaker.Magnitude, weaker.Unit, deeper.Unit), 3);
        return new(end, deeper.Magnitude, deeper.Comparator == Comparator.Below, deeper.Unit, null);
    }

    private static FactValue? LowEnd(Core.Ports.Reading reading, Predicate<Fact> isMeant)
    {
        var index = reading.Facts.FindIndex(fact => fact.Concept == Concepts.OrderVacuumLow && fact.Value.IsNumber && isMeant(fact));
        return index < 0 ? null : reading.Facts[index].Value;
    }
}
