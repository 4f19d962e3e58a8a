using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What one check said of a chart, in a word; and rows that many tests share.</summary>
internal static class CheckWords
{
    public static readonly string[] Sets = ["strict-ranges", "guideline-2022"];

    /// <summary>Findings as <c>breach value</c> or <c>cleared value</c> by time, then what could not be told as <c>open Missing</c>; empty for neither.</summary>
    public static string Said(this DerivedFindings found, string check) => string.Join(", ", found.Findings
        .Where(finding => finding.Rule.Id == check)
        .OrderBy(finding => finding.First.At)
        .Select(finding => (finding.State == FindingState.Cleared ? "cleared " : "breach ")
            + (finding.Latest.Code ?? (finding.Latest.Value is { } value ? Math.Round(value, 3).ToString("0.###", CultureInfo.InvariantCulture) : "missing")))
        .Concat(found.CannotTell.Where(one => one.Rule.Id == check).Select(one => "open " + string.Join('+', one.Missing))));

    /// <summary>The same in both shipped sets; fails where they differ.</summary>
    public static string SaidByBoth(this ChartBuilder chart, string check, UnknownAge unknownAge = UnknownAge.CannotTell)
    {
        var said = Sets.Select(set => chart.Judge(set, unknownAge: unknownAge).Said(check)).Distinct(StringComparer.Ordinal).ToArray();
        return said.Length == 1 ? said[0] : "the sets differ";
    }

    public static DerivedFinding Only(this DerivedFindings found, string check) => found.Findings.Single(finding => finding.Rule.Id == check);

    /// <summary>A suction-pass row with its components.</summary>
    public static ChartBuilder Pass(this ChartBuilder chart, string id, string at, params (Concept Concept, FactValue Value)[] with) =>
        chart.Row(id, at, null, null, null, null, null, [(Concepts.SuctionPass, FactValue.Absent), .. with]);

    public static ChartBuilder Oxygen(this ChartBuilder chart, string at, decimal charted, Unit unit = Unit.Percent) =>
        chart.Row("fio2-" + at.Replace(':', '-').Replace(' ', '-'), Concepts.Fio2, at, ChartBuilder.Number(charted, unit));

    public static ChartBuilder Adult() => new ChartBuilder().Born(1961, 4, 5);

    /// <summary>Nine days old on 1 March.</summary>
    public static ChartBuilder Neonate() => new ChartBuilder().Born(2026, 2, 20);

    public static ChartBuilder Infant() => new ChartBuilder().Born(2025, 9, 1);
}
