using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Whether a number with its unit may be used for a concept, and how it is kept.</summary>
internal static class NumberRules
{
    /// <summary>A number whose unit is told twice and differently: as one without unit, which no default of its row mends.</summary>
    public static ReadValue ApplyUnitsDiffer(decimal number, Comparator comparator, in RowMapping mapping, ConceptInfo info, int rowCode)
    {
        var why = $"The unit of {info.Code} is one as text and another as code.";
        var read = Apply(number, Unit.None, comparator, mapping with { DefaultUnit = Unit.None }, info, FactMarks.None, rowCode);
        return read.Problem is null || read.Problem == Codes.UnitMissing ? read with { Problem = Codes.UnitsDiffer, Why = why } : read;
    }

    public static ReadValue Apply(
        decimal number, Unit unit, Comparator comparator, in RowMapping mapping, ConceptInfo info, FactMarks marks, int rowCode)
    {
        var concept = mapping.Concept;
        var isVacuum = concept == Concepts.VacuumPressure || concept == Concepts.VacuumSet || concept == Concepts.FullLineVacuum;
        DiagnosticCode? problem = null;
        var why = "";
        if (unit == Unit.None && mapping.DefaultUnit != Unit.None)
        {
            unit = mapping.DefaultUnit;
            marks |= FactMarks.UnitFromRow;
        }
        else if (unit == Unit.None && !UnitFit.MayBeBare(info.Dimension))
        {
            (problem, why) = (Codes.UnitMissing, $"The value of {info.Code} has no unit and its row no default.");
        }
        else if (unit != Unit.None && !UnitFit.Fits(info.Dimension, unit))
        {
            (problem, why) = unit == Unit.Unknown
                ? (Codes.UnknownUnit, $"The unit of {info.Code} is not known.")
                : (Codes.UnitOfOtherKind, $"A value of {info.Code} cannot be in {Units.Ucum(unit)}.");
            unit = Unit.Unknown;
        }

        // A vacuum of doubtful unit is kept and judged as such; any other value is not used.
        if (problem is not null && !isVacuum)
        {
            return ReadValue.Trouble(problem, why);
        }

        if (IsOxygen(concept) && !Fractions.TryInspiredOxygen(number, out _))
        {
            return ReadValue.Trouble(Codes.OxygenDoubtful, $"The value of {info.Code} is neither 0.21 to 1 nor 21 to 100.");
        }

        if (number < 0m && !isVacuum)
        {
            return ReadValue.Trouble(Codes.ValuePlausibility, $"A value of {info.Code} cannot be negative.");
        }

        if (number <= 0m && IsAlwaysPositive(concept))
        {
            return ReadValue.Trouble(Codes.ValuePlausibility, $"A value of {info.Code} cannot be zero.");
        }

        if (number < 0m && comparator != Comparator.Exactly)
        {
            // Below −120 is deeper by the number and less deep in ward speech.
            return ReadValue.Trouble(Codes.ValueUnreadable, $"A negative value of {info.Code} stands with a comparator.");
        }

        if (concept == Concepts.Spo2 && unit == Unit.None)
        {
            unit = number > 1m ? Unit.Percent : Unit.One;
        }

        marks |= number < 0m ? FactMarks.Negative : FactMarks.None;
        if (!FactValue.TryNumber(number, unit, out var value, comparator, rowCode))
        {
            return ReadValue.Trouble(Codes.ValueUnreadable, $"The value of {info.Code} has too many digits.");
        }

        if (concept == Concepts.PassCount && !decimal.IsInteger(number))
        {
            return ReadValue.Trouble(Codes.ValuePlausibility, $"A value of {info.Code} is a whole number.");
        }

        return PossibleRange.Allows(concept, number, unit)
            ? new ReadValue(true, value, marks, problem, why)
            : ReadValue.Trouble(Codes.ValuePlausibility, $"The value of {info.Code} is too small or too large to be one.");
    }

    private static bool IsOxygen(Concept concept) => concept == Concepts.Fio2 || concept == Concepts.Preoxygenation;

    private static bool IsAlwaysPositive(Concept concept) =>
        concept == Concepts.TubeInnerDiameter || concept == Concepts.CatheterSize || concept == Concepts.BodyWeight
        || concept == Concepts.GestationalAgeAtBirth || concept == Concepts.PassDuration;
}
