using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Pages;

/// <summary>The forms in which a concept's value is read, from the tables that the reader reads with.</summary>
internal static class AcceptedForms
{
    public static IEnumerable<string> Of(ConceptInfo info)
    {
        switch (info.Dimension)
        {
            case Dimension.YesNo:
                yield return "`valueBoolean`; text or code `yes`, `true`, `no`, `false`";
                break;
            case Dimension.Code:
                yield return $"answers {string.Join(", ", info.Answers.Select(answer => $"`{answer}`"))}";
                yield return "as `valueCodeableConcept` of the answers' code system or a code that a map gives, or as text equal to a code, case ignored";
                yield return AnswerCodings.MayBeSeveral(ChartingPage.ConceptOf(info))
                    ? "several different answers in one are each read" + (info.Answers.Contains("none", StringComparer.Ordinal) ? ", save `none` beside another (AG2123)" : "")
                    : "codings that stand for different answers are told (AG2123) and count as "
                        + (info.Code == "vacuum-reading-method" ? "`unknown`" : "an answer that cannot be read");
                break;
            case Dimension.Date:
                yield return "`valueDateTime`, a date of any precision";
                break;
            default:
                yield return $"`valueQuantity` in {string.Join(", ", Units.Of(info.Dimension).Concat(AlsoFits(info.Dimension)).Select(InWords))}";
                yield return info.Dimension == Dimension.Catheter
                    ? "text of one number and its unit, the unit before or after (`12 Fr`, `FG 12`)"
                    : "text of one number and its unit, with a comparator or without (`< 12`, `at most 12`)";
                if (PossibleRange.Of(ChartingPage.ConceptOf(info)) is { } range)
                {
                    yield return string.Create(CultureInfo.InvariantCulture,
                        $"from {range.Low} to {range.High} {Units.Ucum(range.Unit)}; outside it is told (AG2117) and not used (common practice, no source)");
                }

                yield return UnitFit.MayBeBare(info.Dimension)
                    ? "`valueInteger`, or a number without unit"
                    : "without unit only where the map gives the row a default unit";
                break;
        }

        if (info.AlsoYesNo)
        {
            yield return "`valueBoolean`, or text `yes`, `true`, `no`, `false`";
        }

        if (info.FreeText)
        {
            yield return "other text, unless it only says that suction was due (routine, scheduled, per order, an interval)";
        }
    }

    private static IEnumerable<Unit> AlsoFits(Dimension dimension) =>
        Enum.GetValues<Unit>().Where(unit => UnitFit.Fits(dimension, unit) && !Units.Of(dimension).Contains(unit));

    private static string InWords(Unit unit)
    {
        var texts = Units.TextsOf(unit).ToList();
        return texts.Count == 0 ? $"`{Units.Ucum(unit)}`" : $"`{Units.Ucum(unit)}` (also {string.Join(", ", texts.Select(text => $"`{text}`"))})";
    }
}
