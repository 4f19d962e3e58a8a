using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Worker.Explaining;

/// <summary>An explanation for a person to read.</summary>
public static class ExplanationText
{
    public static void Write(Explanation told, TextWriter into)
    {
        var (record, issue, flag) = (told.Record, told.Content.Issue, told.Content.Flag);
        var severity = told.Latest?.Severity ?? issue?.Severity ?? flag?.Severity;
        into.WriteLine($"{KindWords(record.Kind)} {record.Key:D}");
        Plain(into, $"{(severity is { } known ? CheckReportJson.SeverityCode(known).ToUpperInvariant() + "  " : "")}{record.Check}  {told.Patient}  {StateWords(told)}");
        Line(into, "", told is { Finding: { } finding, Latest: { } latest } ? Wording.Say(finding.Rule, latest) : issue?.Say ?? flag?.Text ?? "");
        Line(into, "", told is { Finding: { } asked, Latest: { } of } ? Wording.Do(asked.Rule, of) : issue?.Do ?? "");
        into.WriteLine();
        WriteJudged(told, into);
        WriteRows(told, into);
        into.WriteLine("What happened to it:");
        foreach (var one in told.History)
        {
            Plain(into, string.Create(CultureInfo.InvariantCulture, $"  {CheckReportJson.TimeText(one.At.UtcTicks)}  {one.What}  (audit entry {one.Entry})"));
        }

        into.WriteLine();
        Line(into, "Ends with", told.Missing.Length > 0 ? $"charting what is missing: {told.Missing}" : told.Clears.Length > 0 ? told.Clears : "not known: its rule set is not at hand");
        WriteAgain(told, into);
        into.WriteLine();
        into.WriteLine(CheckReportText.Caution);
    }

    /// <summary>The state in words; of what never left the service it says so.</summary>
    public static string StateWords(Explanation told)
    {
        if (told.Record.Kind == FindingKind.CannotTell)
        {
            return told.Record.State == FindingState.Open ? "not judged: something is missing" : "over: what was missing was charted, or it is not asked any more";
        }

        var state = told.Record.State switch
        {
            FindingState.Cleared => "cleared",
            FindingState.Withdrawn => "withdrawn",
            FindingState.ClosedByPerson => "closed by a person",
            _ => "open",
        };
        var withheld = told.Finding?.IsWithheld == true ? $", withheld: {told.Finding.Rule.WithheldBy} says it" : "";
        return told.Content.Sent ? state : state + (withheld.Length > 0 ? withheld : told.Content.Withheld switch
        {
            Withholding.Old => ", recorded only: it had happened too long ago to be shown as new",
            Withholding.OverBeforeJudged => ", recorded only: it was over before it was judged",
            Withholding.BeforePolicy => ", recorded only: by the policy in force then it was no finding",
            _ => ", recorded only: nothing was sent",
        });
    }

    /// <summary>The resource that is written for it; of what could not be told none is.</summary>
    public static string KindWords(FindingKind kind) => kind switch
    {
        FindingKind.Spell => "Flag",
        FindingKind.Occurrence => "DetectedIssue",
        _ => "Could not be told",
    };

    private static void WriteJudged(Explanation told, TextWriter into)
    {
        var record = told.Record;
        Line(into, "Happened", record.Count > 1
            ? string.Create(CultureInfo.InvariantCulture, $"{record.Count} times, first {Time(record.First)}, latest {Time(record.Latest)}")
            : Time(record.First));
        Line(into, "Missing", told.Missing);
        if (told.Latest is { } latest)
        {
            Line(into, "Value", ValueOf(latest));
            Line(into, "Breach is", Wording.Limit(latest.Limit));
            Line(into, "Age band", Wording.Band(latest.Band));
            Line(into, "Estimate", latest.Estimate is { } estimate ? Wording.Estimate(estimate) : "");
            if (latest.Circumstance is not null)
            {
                Line(into, "Stricter", "a charted circumstance made the limit stricter");
            }
            else if (latest.CircumstanceNotCharted)
            {
                Line(into, "Stricter", "a circumstance that would make the limit stricter is not charted, or cannot be read");
            }

            var status = Wording.Status(latest.Limit.Status);
            Line(into, "Source", $"{(told.Source.Length > 0 ? $"{told.Source} [{latest.Limit.Source}]" : latest.Limit.Source)}{(status.Length > 0 ? $" ({status})" : "")}");
        }
        else if (told.Content.Issue is { } issue)
        {
            Line(into, "Age band", issue.AgeBand);
            Line(into, "Estimate", issue.Estimate is { } said ? Wording.Estimate(said) : "");
            Line(into, "Source", string.Join("; ", issue.Sources));
        }

        Line(into, "Rule set", told.Basis is { } basis
            ? $"{basis.RuleSet} {basis.RuleSetVersion} (sha256 {basis.RuleSetSha256}), basis {told.BasisSha256}"
            : $"basis {told.BasisSha256}");
        Line(into, "Since then", told.JudgedSince is { } since
            ? $"judged by {since.RuleSet} {since.RuleSetVersion} (sha256 {since.RuleSetSha256}), basis {since.BasisSha256}, which left what it says as it was"
            : "");
        Line(into, "Airway", AirwayWords(told.Airway, told.Again is not null));
        into.WriteLine();
    }

    private static string AirwayWords(ExplainedAirway? airway, bool looked)
    {
        if (airway is null)
        {
            return looked ? "none charted at that time" : "not known: nothing was judged again";
        }

        var type = airway.Type.Length > 0 ? airway.Type.Replace('-', ' ') + ", " : "";
        var diameter = airway switch
        {
            { NewerUnread: true, InnerDiameter.Length: > 0 } => $"inner diameter not known: {airway.InnerDiameter} was charted, and a newer row of it could not be read or two differ, ",
            { NewerUnread: true } => "inner diameter not known: its row could not be read or two differ, ",
            { InnerDiameter.Length: > 0 } => $"inner diameter {airway.InnerDiameter}, ",
            _ => "inner diameter not charted, ",
        };
        var from = airway.From is { } start ? $"from {Time(start)}" : "start not charted";
        return $"{airway.Name}: {type}{diameter}{from}{(airway.To is { } end ? $" to {Time(end)}" : "")}";
    }

    private static void WriteRows(Explanation told, TextWriter into)
    {
        into.WriteLine("Rests on:");
        foreach (var row in told.Rows)
        {
            Plain(into, "  " + RowWords(row));
        }

        if (told.ClearedBy is { } by)
        {
            into.WriteLine("Ended by:");
            Plain(into, "  " + RowWords(by));
        }

        into.WriteLine();
    }

    private static string RowWords(ExplainedRow row)
    {
        var version = row.Version.Length > 0 ? $" version {row.Version}" : "";
        var value = row.Concept.Length > 0 ? $": {row.Concept} {row.Value}" : "";
        var charted = row.Charted.Length > 0 ? $", charted \"{row.Charted}\"" : "";
        var happened = row.Happened is { } at ? $", happened {Time(at)}" : "";
        var known = row.Known is { } since ? $", known {Time(since.UtcTicks)}" : "";
        var place = row.Place is { } where ? $", at {where}" : "";
        return $"{row.Name}{version}{value}{charted}{happened}{known}{place}";
    }

    private static void WriteAgain(Explanation told, TextWriter into)
    {
        if (told.Again is not { } again)
        {
            Line(into, "Judged again", "no");
            return;
        }

        var when = string.Create(CultureInfo.InvariantCulture, $"as known at position {again.UpTo}, at {Time(again.AsOf.UtcTicks)}");
        Line(into, "Judged again", again.IsSame
            ? $"{when}: the same came out ({SameWords(told)})"
            : $"{when}: NOT the same");
        foreach (var difference in again.Differences)
        {
            Plain(into, $"  {difference}");
        }
    }

    private static string SameWords(Explanation told) => (told.Record.Kind, told.Record.State) switch
    {
        (FindingKind.CannotTell, FindingState.Open) => "it lacks the same",
        (FindingKind.CannotTell, _) => "nothing is missing any more",
        _ => told.Finding is null ? "no breach any more" : "same identifier, verdict and value",
    };

    private static string ValueOf(Occurrence occurrence) => occurrence.Value is { } value ? Wording.Amount(value, occurrence.Unit) : occurrence.Code ?? "not charted";

    private static string Time(long utcTicks) => CheckReportJson.TimeText(utcTicks);

    private static void Line(TextWriter into, string label, string text)
    {
        if (text.Length > 0)
        {
            Plain(into, label.Length == 0 ? "  " + text : $"{label,-13} {text}");
        }
    }

    // Names and charted words are not ours; a line of ours stays one line.
    private static void Plain(TextWriter into, string text) => into.WriteLine(PlainText.Visible(text));
}
