using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;

namespace AirwayGuard.Worker.Checking;

/// <summary>The report for a person to read.</summary>
public static class CheckReportText
{
    /// <summary>Stands under every finding that is shown as text.</summary>
    public const string Caution = "Findings are exceptions from the policy in force, for licensed staff to weigh; local policy decides.";

    public static void Write(CheckReport report, TextWriter into)
    {
        Line(into, string.Create(CultureInfo.InvariantCulture, $"Rule set {report.Rules.Name} {report.Rules.Version} (sha256 {Short(report.Rules.Sha256)})"));
        Line(into, report.AsOf is { } at ? "Judged as of " + CheckReportJson.TimeText(at.UtcTicks) : "Nothing carried a time.");
        Line(into, string.Create(
            CultureInfo.InvariantCulture,
            $"Judged: {Counted(report.Judged.Passes, "pass", "es")}, {Counted(report.Judged.Sessions, "session")}, {Counted(report.Judged.Orders, "order")}, {Counted(report.Judged.Settings, "setting")}"));
        into.WriteLine();
        foreach (var reported in report.Findings)
        {
            Write(reported, into);
        }

        foreach (var reported in report.CannotTell)
        {
            Line(into, string.Create(
                CultureInfo.InvariantCulture,
                $"CANNOT TELL  {reported.CannotTell.Rule.Id}  {reported.Patient ?? "no patient"}  {Counted(reported.CannotTell.Count, "time")} from {CheckReportJson.TimeText(reported.CannotTell.At)}: missing {reported.Missing}"));
        }

        if (report.CannotTell.Length > 0)
        {
            into.WriteLine();
        }

        foreach (var problem in report.Problems)
        {
            into.WriteLine(problem.AsLine());
        }

        if (report.Problems.Length > 0)
        {
            into.WriteLine();
        }

        Line(into, Closing(report));
    }

    private static void Write(ReportedFinding reported, TextWriter into)
    {
        var (finding, latest) = (reported.Finding, reported.Finding.Latest);
        Line(into, $"{CheckReportJson.SeverityCode(latest.Severity).ToUpperInvariant()}  {finding.Rule.Id}  {reported.Patient ?? "no patient"}  {CheckReportJson.TimeText(finding.First.At)}{Marks(reported)}");
        Line(into, "  " + Wording.Say(finding.Rule, latest) + (reported.Charted is { } charted ? $" Charted: {charted}." : ""));
        Line(into, "  " + Wording.Do(finding.Rule, latest));
        if (latest.Estimate is { } estimate)
        {
            Line(into, "  " + Wording.Estimate(estimate));
        }

        var status = Wording.Status(latest.Limit.Status);
        Line(into, $"  Source: {latest.Limit.Source}{(status.Length > 0 ? $" ({status})" : "")}. About: {string.Join(", ", reported.About)}");
        into.WriteLine();
    }

    private static string Marks(ReportedFinding reported)
    {
        var finding = reported.Finding;
        var count = finding.Occurrences.Length;
        var times = count > 1 ? string.Create(CultureInfo.InvariantCulture, $"  {count} times, latest {CheckReportJson.TimeText(finding.Latest.At)}") : "";
        var withheld = finding.IsWithheld ? $"  withheld: {finding.Rule.WithheldBy} says it" : "";
        var state = finding.State == FindingState.Open ? "" : "  " + CheckReportJson.StateCode(finding.State);
        return times + (reported.Late ? "  known late" : "") + withheld + state;
    }

    private static string Closing(CheckReport report)
    {
        var found = string.Create(
            CultureInfo.InvariantCulture,
            $"{Counted(report.Findings.Length, "finding")}{(report.Withheld > 0 ? $", {report.Withheld} of them withheld" : "")}, {report.CannotTell.Length} cannot tell, {Counted(report.Problems.Length, "problem")}.");
        var notMapped = report.NotMapped.Length == 0 ? ""
            : $" {Counted(report.NotMapped.Sum(one => one.Rows), "row")} of {Counted(report.NotMapped.Length, "code")} that no map knows (--format json lists them).";
        var unread = report.Unreadable ? " Something could not be read; see the problems." : "";
        return found + notMapped + unread + (report.Findings.Length == 0
            ? " No breach found; that is not \"all well\": only what is charted was judged."
            : " " + Caution);
    }

    // Names, charted words and answers are the input's; a line of ours stays one line.
    private static void Line(TextWriter into, string text) => into.WriteLine(PlainText.Visible(text));

    private static string Counted(int count, string one, string more = "s") =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : one + more)}");

    private static string Short(string sha) => sha.Length > 12 ? sha[..12] : sha;
}
