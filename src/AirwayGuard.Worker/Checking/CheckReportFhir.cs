using System.Collections.Immutable;
using AirwayGuard.Core.Findings;
using AirwayGuard.Fhir.WriteBack;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace AirwayGuard.Worker.Checking;

/// <summary>The report as FHIR: a collection of the DetectedIssues and Flags that the service would write. Nothing is sent.</summary>
public static class CheckReportFhir
{
    /// <summary>Run mode on the resources: a run over files is no live writing.</summary>
    private const string RunMode = "replay";

    /// <param name="softwareVersion">Version of the program, for the author Device.</param>
    public static string Write(CheckReport report, string softwareVersion)
    {
        var basis = new MessageBasis(report.Rules.Name, report.Rules.Version, report.Rules.Sha256, report.Rules.Sha256, softwareVersion, "none");
        var asOf = report.AsOf ?? DateTimeOffset.UnixEpoch;
        var shown = report.Findings.Where(finding => !finding.Finding.IsWithheld).ToArray();
        var issues = shown.SelectMany(finding => finding.Finding.Occurrences.Where(occurrence => !occurrence.Withheld && !occurrence.IsSuperseded).Select(occurrence => Issue(finding, occurrence, asOf, basis)));
        var flags = shown.Where(finding => finding.Finding.Stands && (finding.Patient ?? finding.Place) is not null).Select(finding => Flag(finding, asOf, basis));
        return new FhirJsonSerializer().SerializeToString(FindingsBundle.Build(issues, flags), pretty: true);
    }

    private static IssueMessage Issue(ReportedFinding reported, Occurrence occurrence, DateTimeOffset asOf, MessageBasis basis)
    {
        var rule = reported.Finding.Rule;
        var isWithdrawn = reported.Finding.State == FindingState.Withdrawn;
        return new IssueMessage(
            occurrence.Key, rule.Id, isWithdrawn ? IssueStatus.EnteredInError : IssueStatus.Final, occurrence.Severity, Judging.CheckTitles.Of(rule.Id),
            Wording.Say(rule, occurrence), Wording.Do(rule, occurrence), reported.Patient, [reported.About[0]], Evidence(reported), asOf,
            new DateTimeOffset(occurrence.At, TimeSpan.Zero), reported.Late && occurrence.Key == reported.Finding.Latest.Key, Wording.Band(occurrence.Band), [occurrence.Limit.Source],
            isWithdrawn ? "What this rested on was corrected or taken back." : "", RunMode, basis)
        {
            Estimate = occurrence.Estimate,
        };
    }

    private static FlagMessage Flag(ReportedFinding reported, DateTimeOffset asOf, MessageBasis basis)
    {
        var finding = reported.Finding;
        var start = new DateTimeOffset(finding.First.At, TimeSpan.Zero);
        var status = finding.State switch
        {
            FindingState.Open => FlagStatus.Active,
            FindingState.Withdrawn => FlagStatus.EnteredInError,
            _ => FlagStatus.Inactive,
        };
        DateTimeOffset? end = status == FlagStatus.Active ? null : finding.EndedAt > 0 ? new DateTimeOffset(finding.EndedAt, TimeSpan.Zero) : asOf;
        return new FlagMessage(
            finding.Flag, finding.Rule.Id, status, Reconciler.Highest(finding), Wording.Say(finding.Rule, finding.Latest), (reported.Patient ?? reported.Place)!, null, start, end,
            [.. finding.Occurrences.Where(occurrence => !occurrence.Withheld).Select(occurrence => occurrence.Key)], null,
            status == FlagStatus.Active ? "" : finding.LineEnded ? "Ended with the airway or the stay." : "Cleared or taken back by a later charting.",
            Evidence(reported), RunMode, basis)
        {
            LateBreachAt = reported.Late ? new DateTimeOffset(finding.Latest.At, TimeSpan.Zero) : null,
        };
    }

    // What was not read is all that such a finding says: it names it.
    private static ImmutableArray<MessageEvidence> Evidence(ReportedFinding reported)
    {
        var named = reported.Finding.Rule.Criteria[0].Measure.AsksOfCharting ? reported.Charted ?? "" : "";
        return [.. reported.About.Select((reference, index) => new MessageEvidence(reference, index == 0 ? named : ""))];
    }
}
