using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Share of the inner diameter in use that the catheter takes. ISO 8836:2014 cl. 5.1: the French size counts thirds of a millimetre of
/// outside diameter (1 mm = 3 F). UCUM's [Ch] has had two definitions, so no unit library is asked.
/// </summary>
public static class CatheterToTubeRatio
{
    public static readonly Measure Measure = new(
        "catheter-to-tube-ratio", Dimension.Fraction, Unit.One, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.CatheterSize, Concepts.TubeInnerDiameter, Concepts.InnerCannulaDiameter, Concepts.InnerCannulaInPlace, Concepts.AirwayType],
        TimeSpan.FromDays(400), TimeSpan.FromDays(400), [], MayBeMissing: false,
        "catheter outside diameter as a share of the inner diameter in use",
        Take)
    {
        ClearedAlsoBy = [SubjectKind.Catheter],
        GoesByAirway = true,
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var isOrder = subject.Kind == SubjectKind.Order;
        var catheter = subject.Kind switch
        {
            SubjectKind.Order => OrderedCatheter(subject, timeline, care),
            SubjectKind.Catheter => care.LooseCatheters[subject.Index],
            _ => CatheterInUse.At(timeline, care, subject),
        };
        if (isOrder && catheter < 0)
        {
            return;
        }

        if (catheter < 0)
        {
            result.Missing = Missing.CatheterSize;
            return;
        }

        result.Uses(catheter);
        result.Charted = catheter;
        var airway = isOrder ? subject.Airway : care.AirwayAt(subject.From);
        var at = isOrder && airway >= 0 ? Math.Max(subject.From, care.Airways[airway].From) : subject.From;
        var diameter = InnerDiameter.At(timeline, care, airway, at, ref result);
        if (diameter <= 0m)
        {
            return;
        }

        var size = timeline.Facts[catheter].Value;
        result.Set(size.Magnitude, Unit.One, 3m * diameter);
        result.Comparator = size.Comparator;
        // An order that fits is no catheter in use.
        result.Clearing = isOrder ? ClearingStrength.Never : ClearingStrength.Full;
    }

    /// <summary>The largest catheter an order names by the end of the airway it is held against, of equal ones the latest named, as a fact's index; −1 for none.</summary>
    internal static int OrderedCatheter(in Subject subject, in Timeline timeline, Care care)
    {
        ref readonly var order = ref care.Orders[subject.Index];
        var (largest, until) = (-1, subject.Airway < 0 ? long.MaxValue : care.Airways[subject.Airway].To);
        foreach (var index in care.FactsOf(order))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.CatheterSize && fact.Value.IsNumber && fact.EffectiveFrom < until && (largest < 0 || IsLarger(fact, timeline.Facts[largest])))
            {
                largest = index;
            }
        }

        return largest;
    }

    private static bool IsLarger(in Fact one, in Fact other) =>
        one.Value.Magnitude != other.Value.Magnitude ? one.Value.Magnitude > other.Value.Magnitude : one.EffectiveFrom > other.EffectiveFrom;
}
