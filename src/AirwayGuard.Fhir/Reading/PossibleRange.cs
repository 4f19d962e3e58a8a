using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// The numbers that a concept's value may have: wide enough for any real one, so that what lies outside is a slip of the pen or of the
/// unit. A value outside is told (AG2117) and treated as one that cannot be read. All ends are common practice, no source.
/// </summary>
/// <param name="Unit">Unit of the two ends.</param>
/// <param name="Low">Least possible value, itself possible.</param>
/// <param name="High">Greatest possible value, itself possible.</param>
internal readonly record struct PossibleRange(Concept Concept, Unit Unit, decimal Low, decimal High)
{
    private static readonly PossibleRange[] Table =
    [
        // Tubes are made from 2 mm, for the smallest newborns, to some 11 mm.
        new(Concepts.TubeInnerDiameter, Unit.Millimetre, 1m, 15m),
        // And 0, which says that there is none in place.
        new(Concepts.InnerCannulaDiameter, Unit.Millimetre, 1m, 15m),
        // A catheter too wide for any tube must still be found not to fit.
        new(Concepts.CatheterSize, Unit.French, 3m, 36m),
        new(Concepts.Peep, Unit.CmH2O, 0m, 60m),
        new(Concepts.Spo2, Unit.Percent, 0m, 100m),
        new(Concepts.HeartRate, Unit.PerMinute, 0m, 400m),
        new(Concepts.BodyWeight, Unit.Kilogram, 0.2m, 700m),
        new(Concepts.GestationalAgeAtBirth, Unit.Week, 20m, 45m),
    ];

    /// <summary>The range of a concept; null for one that has none here.</summary>
    public static PossibleRange? Of(Concept concept)
    {
        foreach (ref readonly var range in Table.AsSpan())
        {
            if (range.Concept == concept)
            {
                return range;
            }
        }

        return null;
    }

    /// <summary>Whether the number may be a value of the concept; true where the concept has no range, or the unit leads to none of its numbers.</summary>
    /// <param name="number">At most 18 digits, so that no conversion overflows.</param>
    public static bool Allows(Concept concept, decimal number, Unit unit) =>
        Of(concept) is not { } range || !range.TryConvert(number, unit, out var amount) || (amount >= range.Low && amount <= range.High)
        || (concept == Concepts.InnerCannulaDiameter && number == 0m);

    private bool TryConvert(decimal number, Unit unit, out decimal amount)
    {
        amount = number;
        switch (Unit)
        {
            case Unit.CmH2O when Units.IsPressure(unit):
                amount = Vacuum.Convert(number, unit, Unit.CmH2O);
                return true;
            case Unit.Week when Durations.TrySeconds(number, unit, out var seconds) && Durations.TrySeconds(1m, Unit.Week, out var week):
                amount = seconds / week;
                return true;
            case Unit.Percent:
                // A saturation up to 1 is a share of one, whatever its unit says.
                amount = number <= 1m ? number * 100m : number;
                return true;
            default:
                var factor = (Unit, unit) switch
                {
                    (Unit.Millimetre, Unit.Centimetre) => 10m,
                    (Unit.Kilogram, Unit.Gram) => 0.001m,
                    _ => Unit == unit ? 1m : 0m,
                };
                amount *= factor;
                return factor != 0m;
        }
    }
}
