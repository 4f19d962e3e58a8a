using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Cases;

/// <summary>Reads what a case charts for a concept: a number with its unit as printed or in UCUM, an answer, yes, no, a date.</summary>
internal static class CaseValueReader
{
    /// <summary>Stands for a row whose value nobody can read.</summary>
    private const string Unreadable = "unreadable";

    /// <summary>Stands for free text where a concept takes any.</summary>
    private const string FreeText = "text";

    private static readonly (string Sign, Comparator Comparator)[] Comparisons =
        [("<=", Comparator.AtMost), (">=", Comparator.AtLeast), ("<", Comparator.Below), (">", Comparator.Above)];

    private static readonly ImmutableArray<Concept> Vacuums =
        [Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.FullLineVacuum, Concepts.OrderVacuumLow, Concepts.OrderVacuumHigh];

    public static FactValue? Read(Concept concept, Node node, Faults faults)
    {
        var info = Concepts.Info(concept);
        if (node is not TextNode { IsBlank: false } text)
        {
            faults.Add(Codes.RuleSetShapeWrong, node.At, $"{info.Code} is {(node is TextNode ? "empty" : node.Shape)}.", Allowed(info));
            return null;
        }

        if (Of(info, concept, text.Text.Trim()) is { } value)
        {
            return value;
        }

        faults.Add(Codes.CaseValueUnreadable, text.At, $"{info.Code} is {Words.Quote(text.Text)}.{Words.DidYouMean(text.Text, info.Answers)}", Allowed(info));
        return null;
    }

    private static FactValue? Of(ConceptInfo info, Concept concept, string text)
    {
        if (text == Unreadable)
        {
            return FactValue.Unreadable;
        }

        if ((info.Dimension == Dimension.YesNo || info.AlsoYesNo) && text is "yes" or "no")
        {
            return text == "yes" ? FactValue.Yes : FactValue.No;
        }

        return info.Dimension switch
        {
            Dimension.YesNo => null,
            Dimension.Code => Answers.TryFind(concept, text, out var answer) ? FactValue.Code(answer) : TakesText(info) && text == FreeText ? FactValue.Text : null,
            Dimension.Date => Date(text),
            _ => Number(concept, info.Dimension, text),
        };
    }

    private static bool TakesText(ConceptInfo info) => info.FreeText || info.Answers.Count == 0;

    private static FactValue? Date(string text) =>
        DateTime.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? FactValue.Date(day.Year, day.Month, day.Day, 8)
            : null;

    // As charts are read: a vacuum may stand without a unit or with a minus sign, since both are judged, a count and a fraction tell
    // what they are; anything else would be no value at all.
    private static FactValue? Number(Concept concept, Dimension dimension, string text)
    {
        var comparator = Comparator.Exactly;
        foreach (var (sign, means) in Comparisons)
        {
            if (text.StartsWith(sign, StringComparison.Ordinal))
            {
                (comparator, text) = (means, text[sign.Length..].TrimStart());
                break;
            }
        }

        var (written, rest) = Amount.SplitAtSpace(text);
        if (!decimal.TryParse(written, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number))
        {
            return null;
        }

        var isVacuum = Vacuums.Contains(concept);
        var unit = Units.FromText(rest);
        var fits = (number >= 0m || isVacuum) && (unit == Unit.None
            ? isVacuum || dimension is Dimension.Count or Dimension.Fraction
            : Units.TryDimension(unit, out var kind) && kind == dimension);
        unit = unit != Unit.None ? unit
            : dimension == Dimension.Count ? Unit.Count
            : concept == Concepts.Spo2 ? (number > 1m ? Unit.Percent : Unit.One)
            : unit;
        return fits && FactValue.TryNumber(number, unit, out var value, comparator) ? value : null;
    }

    private static string Allowed(ConceptInfo info)
    {
        var words = info.Answers.Concat(info.Dimension == Dimension.YesNo || info.AlsoYesNo ? ["yes", "no"] : Array.Empty<string>())
            .Concat(info.Dimension == Dimension.Code && TakesText(info) ? [FreeText] : [])
            .Append(Unreadable);
        var number = info.Dimension switch
        {
            Dimension.Code or Dimension.YesNo => "",
            Dimension.Date => "Write a date such as 2025-03-01. ",
            _ => $"Write a number and a unit: {string.Join(", ", Units.Of(info.Dimension).Select(Units.Ucum))}. ",
        };
        return $"{number}{Words.Listed(words)}";
    }
}
