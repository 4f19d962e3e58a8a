using System.Globalization;
using AirwayGuard.Core.Estimates;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Findings;

/// <summary>Findings in a clinician's words: fills a rule's sentences with value, limit and band.</summary>
public static class Wording
{
    // More are shown only where the value would else read as lying on its limit.
    private const int Places = 3, MostPlaces = 12;

    public static string Say(Rule rule, Occurrence occurrence)
    {
        var when = occurrence.Limit.Comparison == Comparison.Missing ? (occurrence.Charted is null ? null : Rule.Charted) : occurrence.Code;
        foreach (var instead in rule.SayInstead)
        {
            if (instead.When == when)
            {
                return Fill(instead.Say, occurrence);
            }
        }

        // What a circumstance tightened is no limit of the age.
        var say = Circumstance(rule, occurrence) is { } held ? rule.Say.Replace("{limit}", "{limit} while " + held, StringComparison.Ordinal) : rule.Say;
        return Fill(say, occurrence);
    }

    private static string? Circumstance(Rule rule, Occurrence occurrence)
    {
        foreach (var criterion in rule.Criteria)
        {
            if (criterion.Limits.For(occurrence.Band)?.ComparesAs(occurrence.Limit) == true)
            {
                return null;
            }
        }

        foreach (var circumstance in rule.Tighten)
        {
            for (var band = AgeBand.Neonate; band <= AgeBand.Adult; band++)
            {
                if (circumstance.Limits?.For(band)?.ComparesAs(occurrence.Limit) == true && circumstance.When is [var guard, ..])
                {
                    return guard.Measure.Meaning;
                }
            }
        }

        return null;
    }

    public static string Do(Rule rule, Occurrence occurrence) => Fill(rule.Do, occurrence);

    /// <summary>A number with its unit as printed at the bedside: <c>220 mmHg</c>, <c>58.3 %</c>, <c>16 s</c>.</summary>
    public static string Amount(decimal value, Unit unit) => Amount(value, unit, Places);

    private static string Amount(decimal value, Unit unit, int places) => unit switch
    {
        Unit.One => string.Create(CultureInfo.InvariantCulture, $"{Rounded(value * 100m, places)} %"),
        Unit.Count => Rounded(value, places),
        Unit.None => string.Create(CultureInfo.InvariantCulture, $"{Rounded(value, places)} (unit uncertain)"),
        Unit.Unknown => string.Create(CultureInfo.InvariantCulture, $"{Rounded(value, places)} (unit not recognised)"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{Rounded(value, places)} {Printed(unit)}"),
    };

    public static string Band(AgeBand band) => band switch
    {
        AgeBand.Neonate => "neonate",
        AgeBand.Infant => "infant",
        AgeBand.Child => "child",
        AgeBand.Adult => "adult",
        _ => "unknown",
    };

    /// <summary>A limit with the direction of the breach: <c>above 150 mmHg</c>, <c>at or above 50 %</c>.</summary>
    public static string Limit(Limit limit) => limit.Comparison switch
    {
        Comparison.Above => "above " + Amount(limit.Low, limit.Unit),
        Comparison.AtOrAbove => "at or above " + Amount(limit.Low, limit.Unit),
        Comparison.Below => "below " + Amount(limit.Low, limit.Unit),
        Comparison.AtOrBelow => "at or below " + Amount(limit.Low, limit.Unit),
        Comparison.Outside => $"outside {Amount(limit.Low, limit.Unit)} to {Amount(limit.High, limit.Unit)}",
        Comparison.Is => Code(limit.Code),
        Comparison.IsNot => "not " + Code(limit.Code),
        _ => "not charted",
    };

    /// <summary>An estimate of the pressure in the trachea, named as one, with what it was made for and where it comes from.</summary>
    public static string Estimate(PressureEstimate estimate) => string.Create(
        CultureInfo.InvariantCulture,
        $"Rough bench estimate, no limit: {Amount(estimate.Vacuum, estimate.VacuumUnit)} through {Amount(estimate.French, Unit.French)} in {Amount(estimate.Millimetres, Unit.Millimetre)}, open, may bring the trachea {Below(estimate)} below atmosphere in a clean tube off the ventilator (Nakstad 2017, Kiraly 2008).");

    private static string Below(PressureEstimate estimate) => estimate.About is { } about
        ? $"about {Amount(about, PressureEstimate.Unit)}, between {Rounded(estimate.Low, 1)} and {Rounded(estimate.High, 1)},"
        : $"less than {Amount(estimate.High, PressureEstimate.Unit)}";

    /// <summary>How well a source is known, in words; empty for a cited one.</summary>
    public static string Status(SourceStatus status) => status switch
    {
        SourceStatus.CommonPractice => "common practice, no source",
        SourceStatus.FromMemory => "from memory",
        SourceStatus.Disputed => "disputed",
        _ => "",
    };

    /// <summary>At most <paramref name="places"/> decimal places, no trailing zeros.</summary>
    public static string Rounded(decimal value, int places) =>
        (Math.Round(value, places, MidpointRounding.AwayFromZero) / 1.0000000000000000000000000000m).ToString(CultureInfo.InvariantCulture);

    private static string Fill(string sentence, Occurrence occurrence)
    {
        var value = occurrence.Value is { } amount
            ? Bounded(Amount(Readable(amount, occurrence.Unit == Unit.One ? 100m : 1m, occurrence.Limit, out var places), occurrence.Unit, places), occurrence) + CountsAs(amount, occurrence)
            : occurrence.Code is { } code ? Code(code)
            : "not charted";
        return sentence
            .Replace("{value}", value, StringComparison.Ordinal)
            .Replace("{limit}", LimitAlone(occurrence.Limit), StringComparison.Ordinal)
            .Replace("{band}", occurrence.Band == AgeBand.Unknown ? "unknown age" : Band(occurrence.Band), StringComparison.Ordinal);
    }

    // A converted value has more places than anybody charted. It is cut to one, or to as many as show on which side of the limit it is.
    private static decimal Readable(decimal value, decimal scale, Limit limit, out int places)
    {
        places = Places;
        if (decimal.Round(value * scale, Places) == value * scale)
        {
            return value;
        }

        for (places = 1; places < MostPlaces; places++)
        {
            var rounded = Math.Round(value * scale, places, MidpointRounding.AwayFromZero) / scale;
            if (rounded.CompareTo(limit.Low) == value.CompareTo(limit.Low) && rounded.CompareTo(limit.High) == value.CompareTo(limit.High))
            {
                return rounded;
            }
        }

        return value;
    }

    // "Over 150" is above 150 and 150 is not: without what was charted beside the number a sentence would read false.
    private static string Bounded(string amount, Occurrence occurrence) => occurrence.Comparator switch
    {
        Comparator.Above => "over " + amount,
        Comparator.AtLeast => amount + " or more",
        Comparator.Below => (occurrence.AllowsUpTo ? "up to just under " : "under ") + amount,
        Comparator.AtMost => "up to " + amount,
        _ => amount,
    };

    // Said where the number alone is on the limit's other side and breaches by how the page of meanings has it counted.
    private static string CountsAs(decimal value, Occurrence occurrence)
    {
        var limit = occurrence.Limit;
        if (occurrence.Unit != limit.Unit || IsBeyond(value, limit))
        {
            return "";
        }

        var nearest = Math.Abs(value - limit.High) < Math.Abs(value - limit.Low) ? limit.High : limit.Low;
        return occurrence.IsConverted && value != nearest ? $" (converted, which counts as {Amount(nearest, limit.Unit)})"
            : occurrence is { Comparator: Comparator.AtLeast, Kind: not SubjectKind.Order } ? $" (which counts as above {Amount(nearest, limit.Unit)})"
            : "";
    }

    private static bool IsBeyond(decimal value, Limit limit) => limit.Comparison switch
    {
        Comparison.Above => value > limit.Low,
        Comparison.AtOrAbove => value >= limit.Low,
        Comparison.Below => value < limit.Low,
        Comparison.AtOrBelow => value <= limit.Low,
        Comparison.Outside => value < limit.Low || value > limit.High,
        _ => true,
    };

    private static string LimitAlone(Limit limit) => limit.Comparison switch
    {
        Comparison.Is or Comparison.IsNot => Code(limit.Code),
        Comparison.Missing => "charted",
        Comparison.Outside => $"{Amount(limit.Low, limit.Unit)} to {Amount(limit.High, limit.Unit)}",
        _ => Amount(limit.Low, limit.Unit),
    };

    private static string Code(string code) => code.Replace('-', ' ');

    private static string Printed(Unit unit) => unit switch
    {
        Unit.MmHg => "mmHg",
        Unit.CmH2O => "cmH2O",
        Unit.InHg => "inHg",
        Unit.CmHg => "cmHg",
        Unit.French => "Fr",
        _ => Units.Ucum(unit),
    };
}
