using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Worker.Overrides;

/// <summary>The figures for a person to read.</summary>
public static class OverrideText
{
    /// <summary>What the figures do not say.</summary>
    public const string Caution =
        "EHRs report no card that was ignored: not answered is not accepted, and the rate is of answered cards only. "
        + "A high rate may mean a wrong limit, a wrong map, or a right card at the wrong moment: read the comments before changing a limit.";

    private const string AllChecks = "all checks", None = "–";

    public static void Write(OverrideReport report, TextWriter into)
    {
        Line(into, "What people did with cards " + Span(report));
        into.WriteLine();
        if (report.Checks.IsEmpty)
        {
            Line(into, "No card of a check was given.");
        }
        else
        {
            WriteTable(report, into);
            into.WriteLine();
            Line(into, "Given at " + string.Join(", ", report.Hooks.Select(static hook => string.Create(CultureInfo.InvariantCulture, $"{hook.Hook} {hook.Given}"))) + ".");
        }

        WriteNotJudged(report.NotJudged, into);
        WriteComments(report, into);
        into.WriteLine();
        if (report.Checks.Any(static check => check.Counts.IsFew))
        {
            Line(into, string.Create(CultureInfo.InvariantCulture, $"few: under {CardCounts.Few} answered; each further card moves the rate much."));
        }

        Line(into, Caution);
    }

    private static void WriteTable(OverrideReport report, TextWriter into)
    {
        var width = report.Checks.Select(static check => PlainText.Visible(check.Check).Length).Append(AllChecks.Length).Max();
        Line(into, $"{"check".PadRight(width)}  given  accepted  overridden  answered  not answered  override rate (95 % interval)");
        foreach (var check in report.Checks)
        {
            Row(into, check.Check, check.Counts, width);
            foreach (var reason in check.Reasons.GroupBy(static one => one.Reason.Short, StringComparer.Ordinal)
                .Select(static same => (Reason: same.Key, Count: same.Sum(static one => one.Count)))
                .OrderByDescending(static one => one.Count).ThenBy(static one => one.Reason, StringComparer.Ordinal))
            {
                Line(into, string.Create(CultureInfo.InvariantCulture, $"  {reason.Count,5}  {reason.Reason}"));
            }
        }

        Row(into, AllChecks, report.All, width);
    }

    private static void Row(TextWriter into, string name, CardCounts counts, int width) => Line(into, string.Create(
        CultureInfo.InvariantCulture,
        $"{PlainText.Visible(name).PadRight(width)}  {counts.Given,5}  {counts.Accepted,8}  {counts.Overridden,10}  {counts.Answered,8}  {counts.NotAnswered,12}  {Rate(counts)}{(counts.IsFew ? "  few" : "")}"));

    private static string Rate(CardCounts counts) =>
        counts is { OverrideRate: { } rate, Interval: { } interval } ? $"{Percent(rate)} % ({Percent(interval.Low)} to {Percent(interval.High)} %)" : None;

    private static string Percent(double share) => Math.Round((decimal)share * 100, 1, MidpointRounding.AwayFromZero).ToString("0.0", CultureInfo.InvariantCulture);

    private static string Span(OverrideReport report) => (report.Since, report.Until) switch
    {
        ({ } since, { } until) => $"given from {Time(since)} and before {Time(until)}",
        ({ } since, null) => $"given from {Time(since)}",
        (null, { } until) => $"given before {Time(until)}",
        _ => "given at any time",
    };

    private static void WriteNotJudged(CardCounts counts, TextWriter into)
    {
        if (counts.Given > 0)
        {
            Line(into, string.Create(
                CultureInfo.InvariantCulture,
                $"Not judged, and in no sum above: {counts.Given} {(counts.Given == 1 ? "card" : "cards")} that said what could not be judged ({counts.Accepted} accepted, {counts.Overridden} overridden, {counts.NotAnswered} not answered)."));
        }
    }

    private static void WriteComments(OverrideReport report, TextWriter into)
    {
        if (report.Comments is not { } comments)
        {
            return;
        }

        into.WriteLine();
        Line(into, comments.IsEmpty ? "Nobody wrote a comment." : "Comments (patient data):");
        foreach (var one in comments)
        {
            Line(into, $"  {(one.Check.Length == 0 ? "not judged" : one.Check)}  {Time(one.At)}  {OverrideJson.OutcomeCode(one.Outcome)}, {one.Reason.Short}  card {one.Card:D}{(one.IsSuperseded ? "  (a later report counts)" : "")}");
            Line(into, "    " + one.Comment);
        }
    }

    private static string Time(DateTimeOffset at) => CheckReportJson.TimeText(at.UtcTicks);

    // Reasons and comments are the EHR's; a line of ours stays one line.
    private static void Line(TextWriter into, string text) => into.WriteLine(PlainText.Visible(text));
}
