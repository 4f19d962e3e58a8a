using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Two parts of one order that say different things. What is structured goes before text; vacuum and catheter are judged by the larger whichever it stands in.</summary>
internal static class OrderContradiction
{
    private static readonly Concept[] StructuredFirst =
    [
        Concepts.SalineInstilled, Concepts.SuctionSystem, Concepts.DepthTechnique, Concepts.InsertionDepth, Concepts.Preoxygenation,
        Concepts.OrderInterval, Concepts.OrderByClock, Concepts.OrderAsNeeded,
    ];

    /// <summary>Puts apart, at the end, what texts say against a structured part.</summary>
    /// <param name="facts">Indexes of one order's facts; what is put apart keeps its order, as the rest does.</param>
    /// <returns>How many were put apart.</returns>
    public static int PutApart(in Timeline timeline, Span<int> facts)
    {
        var (kept, apart) = (0, (List<int>?)null);
        foreach (var index in facts)
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Id.Ordinal >= TextOrdinal.First && Array.IndexOf(StructuredFirst, fact.Concept) >= 0 && DiffersFromStructured(timeline, facts, fact))
            {
                (apart ??= []).Add(index);
            }
        }

        if (apart is null)
        {
            return 0;
        }

        foreach (var index in facts)
        {
            if (apart.BinarySearch(index) < 0)
            {
                facts[kept++] = index;
            }
        }

        apart.CopyTo(facts[kept..]);
        return apart.Count;
    }

    /// <summary>Two readable values of one concept that cannot both be meant.</summary>
    public static bool Differ(in FactValue one, in FactValue other, Concept concept)
    {
        if (concept == Concepts.OrderVacuumHigh || concept == Concepts.CatheterSize)
        {
            return one.IsNumber && other.IsNumber && SizesDiffer(one, other);
        }

        if (concept == Concepts.InsertionDepth)
        {
            return Diameters.TryMillimetres(one, out var depth) && Diameters.TryMillimetres(other, out var otherDepth) && depth != otherDepth;
        }

        if (concept == Concepts.OrderInterval)
        {
            return one.IsNumber && other.IsNumber && one.Amount != other.Amount;
        }

        return one.Kind == ValueKind.Code || other.Kind == ValueKind.Code
            ? one.Kind == other.Kind && one.Symbol != other.Symbol
            : Truth(one) is { } says && Truth(other) is { } otherSays && (says != otherSays || (one.IsNumber && other.IsNumber && AmountOf(one, concept) != AmountOf(other, concept)));
    }

    // A part that says it in several ways is held against by all of them.
    private static bool DiffersFromStructured(in Timeline timeline, Span<int> facts, in Fact text)
    {
        var differs = false;
        foreach (var index in facts)
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept != text.Concept || fact.Id.Ordinal >= TextOrdinal.First || fact.Value.Kind == ValueKind.Unreadable)
            {
                continue;
            }

            if (!Differ(fact.Value, text.Value, fact.Concept))
            {
                return false;
            }

            differs = true;
        }

        return differs;
    }

    // Charts round: in two units, values as near to each other as a limit and what equals it say the same.
    private static bool SizesDiffer(in FactValue one, in FactValue other)
    {
        var (size, otherSize) = (Size(one), Size(other));
        return one.Unit == other.Unit || !Units.IsPressure(one.Unit) || !Units.IsPressure(other.Unit) ? size != otherSize : Math.Abs(size - otherSize) > Vacuum.ToleranceMmHg;
    }

    private static decimal Size(in FactValue value) => value.Unit == Unit.Millimetre ? 3m * value.Magnitude : VacuumPressure.Depth(value);

    private static bool? Truth(in FactValue value) => value.Kind == ValueKind.Yes ? true : value.Kind == ValueKind.No ? false : value.IsNumber ? value.Amount > 0m : null;

    private static decimal AmountOf(in FactValue value, Concept concept) =>
        concept == Concepts.Preoxygenation && Fractions.TryInspiredOxygen(value.Amount, out var fraction) ? fraction : value.Amount;
}
