using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Findings;

/// <summary>A charted value in its one form for a person who looks at a finding: number with UCUM code (a ratio or count without), answer's code, yes or no, date.</summary>
public static class FactWords
{
    public static string Of(in FactValue value) => value.Kind switch
    {
        ValueKind.Number => Number(value),
        ValueKind.Code => Answers.Code(value.Symbol),
        ValueKind.Yes => "yes",
        ValueKind.No => "no",
        ValueKind.Text => "text",
        ValueKind.NotPerformed => "charted as not performed",
        ValueKind.Date => Date(value),
        ValueKind.Unreadable => "could not be read",
        _ => "no value",
    };

    private static string Number(in FactValue value)
    {
        var sign = value.Comparator switch
        {
            Comparator.Below => "< ",
            Comparator.AtMost => "<= ",
            Comparator.AtLeast => ">= ",
            Comparator.Above => "> ",
            _ => "",
        };
        var amount = value.Amount.ToString(CultureInfo.InvariantCulture);
        return value.Unit switch
        {
            Unit.None => $"{sign}{amount} (no unit)",
            Unit.Unknown => $"{sign}{amount} (unit not recognised)",
            Unit.One or Unit.Count => sign + amount,
            _ => $"{sign}{amount} {Units.Ucum(value.Unit)}",
        };
    }

    private static string Date(in FactValue value) => value.Scale switch
    {
        4 => string.Create(CultureInfo.InvariantCulture, $"{value.Digits / 10_000:0000}"),
        6 => string.Create(CultureInfo.InvariantCulture, $"{value.Digits / 10_000:0000}-{value.Digits / 100 % 100:00}"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{value.Digits / 10_000:0000}-{value.Digits / 100 % 100:00}-{value.Digits % 100:00}"),
    };
}
