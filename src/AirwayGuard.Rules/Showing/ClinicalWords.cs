using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Showing;

/// <summary>Limits, ages and circumstances as a clinician reads them: what passes, in the units that are said at the bedside.</summary>
internal static class ClinicalWords
{
    /// <summary>What a value may be under this limit, such as <c>150 mmHg or less</c>; never the breach.</summary>
    public static string Passes(Limit limit, Measure measure)
    {
        var isCount = limit.Unit == Unit.Count;
        var value = Amount(limit.Low, limit.Unit, measure);
        return limit.Comparison switch
        {
            Comparison.Above => $"{value} or {(isCount ? "fewer" : "less")}",
            Comparison.AtOrAbove => $"{(isCount ? "fewer than" : "below")} {value}",
            Comparison.Below => $"{value} or more",
            Comparison.AtOrBelow => $"{(isCount ? "more than" : "above")} {value}",
            Comparison.Outside => $"{Number(limit.Low, limit.Unit)} to {Amount(limit.High, limit.Unit, measure)}",
            Comparison.Is => IsMark(measure) ? MustBe(IsNo(limit.Code)) : $"other than {Code(limit.Code)}",
            Comparison.IsNot => IsMark(measure) ? MustBe(!IsNo(limit.Code)) : $"{Code(limit.Code)} only",
            _ => "must be charted",
        };
    }

    /// <summary>An amount with its unit as it is said: <c>150 mmHg</c>, <c>12 Fr</c>, <c>70 %</c>, <c>10 percentage points</c>, <c>3</c>.</summary>
    public static string Amount(decimal amount, Unit unit, Measure measure)
    {
        var number = Number(amount, unit);
        return unit switch
        {
            Unit.Percent or Unit.One when measure.IsDifferenceOfShares => $"{number} percentage point{(number == "1" ? "" : "s")}",
            Unit.Percent or Unit.One => $"{number} %",
            Unit.Count or Unit.None => number,
            Unit.Day or Unit.Week or Unit.Month => $"{number} {UnitWord(unit)}{(number == "1" ? "" : "s")}",
            _ => $"{number} {UnitWord(unit)}",
        };
    }

    /// <summary>The bands in front of a check's name: <c>Adult</c>, <c>Neonate, infant and child</c>.</summary>
    public static string Ages(IReadOnlyList<AgeBand> bands)
    {
        var words = Listed([.. bands.Select(band => Words.Of(Words.Bands, band))]);
        return Capital(words);
    }

    /// <summary>What must be charted for all of these to hold, to stand behind <c>where</c>.</summary>
    public static string Circumstance(ImmutableArray<Guard> guards) => string.Join(" and ", guards.Select(Guard));

    public static string Capital(string words) =>
        words.Length == 0 ? words : char.ToUpper(words[0], CultureInfo.InvariantCulture) + words[1..];

    /// <summary><c>a</c>, <c>a and b</c>, <c>a, b and c</c>.</summary>
    public static string Listed(IReadOnlyList<string> words) =>
        words.Count < 2 ? string.Concat(words) : $"{string.Join(", ", words.Take(words.Count - 1))} and {words[^1]}";

    /// <summary>A code of ours in plain words.</summary>
    public static string Code(string code) => code.Replace('-', ' ');

    /// <summary>A measure's id in plain words, to tell the criteria of one check apart.</summary>
    public static string MeasureName(Measure measure) =>
        Code(measure.Id).Replace("spo2", "SpO2", StringComparison.Ordinal).Replace("peep", "PEEP", StringComparison.Ordinal);

    /// <summary>Whole minutes or hours, as documents write them.</summary>
    public static string Span(TimeSpan span) => span == TimeSpan.Zero ? "none"
        : span.Minutes == 0 ? string.Create(CultureInfo.InvariantCulture, $"{(int)span.TotalHours} h")
        : string.Create(CultureInfo.InvariantCulture, $"{(int)span.TotalMinutes} min");

    private static string Guard(Guard guard)
    {
        var (measure, limit) = (guard.Measure, guard.Limit);
        if (IsMark(measure))
        {
            var clause = measure.Meaning.StartsWith("whether ", StringComparison.Ordinal) ? measure.Meaning["whether ".Length..] : measure.Meaning;
            return IsNo(limit.Code) == (limit.Comparison == Comparison.Is) ? $"it is charted that not: {clause}" : clause;
        }

        var value = Amount(limit.Low, limit.Unit, measure);
        var held = limit.Comparison switch
        {
            Comparison.Is => $"is {Code(limit.Code)}",
            Comparison.IsNot => $"is not {Code(limit.Code)}",
            Comparison.Above => $"is above {value}",
            Comparison.AtOrAbove => $"is {value} or more",
            Comparison.Below => $"is below {value}",
            Comparison.AtOrBelow => $"is {value} or less",
            _ => $"is outside {Number(limit.Low, limit.Unit)} to {Amount(limit.High, limit.Unit, measure)}",
        };
        return $"{MeasureName(measure)} {held}";
    }

    private static bool IsMark(Measure measure) => measure.Dimension == Dimension.YesNo;

    private static bool IsNo(string code) => code is "no" or "false";

    private static string MustBe(bool so) => so ? "must be so" : "must not be so";

    private static string Number(decimal amount, Unit unit) => Words.Number(unit == Unit.One ? amount * 100m : amount);

    private static string UnitWord(Unit unit) => unit switch
    {
        Unit.MmHg => "mmHg",
        Unit.CmH2O => "cmH2O",
        Unit.InHg => "inHg",
        Unit.CmHg => "cmHg",
        Unit.French => "Fr",
        Unit.PerMinute => "per minute",
        Unit.Day => "day",
        Unit.Week => "week",
        Unit.Month => "month",
        _ => Units.Ucum(unit),
    };
}
