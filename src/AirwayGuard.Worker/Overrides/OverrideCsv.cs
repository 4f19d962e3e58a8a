using System.Globalization;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Worker.Overrides;

/// <summary>
/// The figures for a spreadsheet (RFC 4180, with a header). The column <c>row</c> says what a line counts: <c>check</c>, a <c>reason</c> of the check
/// named beside it, <c>all</c> checks, or what was <c>not-judged</c>. It never holds comments. Rates are fractions of one, to four places; empty where nothing was answered.
/// </summary>
public static class OverrideCsv
{
    private const string Header = "row,check,reason,given,accepted,overridden,answered,notAnswered,overrideRate,low95,high95";

    public static void Write(OverrideReport report, TextWriter into)
    {
        Line(into, Header);
        foreach (var check in report.Checks)
        {
            Line(into, $"check,{Cell(check.Check)},,{Counts(check.Counts)},{Rate(check.Counts)}");
            foreach (var reason in check.Reasons)
            {
                Line(into, string.Create(CultureInfo.InvariantCulture, $"reason,{Cell(check.Check)},{Cell(reason.Reason.Full)},,,{reason.Count},,,,,"));
            }
        }

        Line(into, $"all,,,{Counts(report.All)},{Rate(report.All)}");
        if (report.NotJudged.Given > 0)
        {
            Line(into, $"not-judged,,,{Counts(report.NotJudged)},,,");
        }
    }

    private static string Counts(CardCounts counts) =>
        string.Create(CultureInfo.InvariantCulture, $"{counts.Given},{counts.Accepted},{counts.Overridden},{counts.Answered},{counts.NotAnswered}");

    private static string Rate(CardCounts counts) =>
        counts is { OverrideRate: { } rate, Interval: { } interval } ? $"{Number(rate)},{Number(interval.Low)},{Number(interval.High)}" : ",,";

    private static string Number(double share) => OverrideJson.Rounded(share).ToString("0.0000", CultureInfo.InvariantCulture);

    private static string Cell(string text)
    {
        var cell = Guarded(PlainText.Visible(text));
        return cell.AsSpan().ContainsAny(",\"\r\n") ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : cell;
    }

    // A spreadsheet takes what begins so for a formula and would run it; some leave out spaces before they look.
    private static string Guarded(string text) => text.TrimStart() is ['=' or '+' or '-' or '@', ..] ? "'" + text : text;

    private static void Line(TextWriter into, string line) => into.Write(line + "\r\n");
}
