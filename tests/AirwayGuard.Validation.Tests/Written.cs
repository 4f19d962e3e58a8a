using AirwayGuard.Core.Estimates;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Anchoring;
using AirwayGuard.Fhir.WriteBack;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace AirwayGuard.Validation.Tests;

/// <summary>Every resource that is written, in each state of its life, by name. All data invented.</summary>
internal static class Written
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 1, 12, 0, 0, 413, TimeSpan.FromHours(10));
    private static readonly MessageBasis Basis = new("strict-ranges", "2026.03", new string('a', 64), new string('b', 64), "1.4.0", "7");
    private static readonly ResourceReference Author = AuthorDevice.At("airwayguard");

    public static readonly IssueMessage Issue = new(
        FindingKeys.Issue("vacuum-above-ceiling", "Observation/o1"), "vacuum-above-ceiling", IssueStatus.Final, Severity.High, "Vacuum above ceiling",
        "Vacuum 220 mm[Hg] is above 150 mm[Hg].", "Set the regulator to 150 mm[Hg] or less.", "Patient/p1", ["Procedure/s1", "Observation/o1"],
        [new MessageEvidence("Observation/o1/_history/2", "220 mmHg <not \"160\" & more>"), new MessageEvidence("Device/d1", "")],
        Noon.AddMinutes(3), Noon, false, "adult", ["An invented guideline (disputed)"], "", "live", Basis);

    public static readonly FlagMessage Flag = new(
        FindingKeys.Flag("vacuum-above-ceiling", "Device/r1", FindingKeys.Start), "vacuum-above-ceiling", FlagStatus.Active, Severity.High,
        "Vacuum 220 mm[Hg] is above 150 mm[Hg].", "Patient/p1", "Encounter/e1", Noon.AddMinutes(3), null, [Issue.Key], null, "",
        [new MessageEvidence("Observation/o1/_history/2", "220 mmHg")], "live", Basis);

    private static readonly FlagMessage Ended = Flag with { Status = FlagStatus.Inactive, PeriodEnd = Noon.AddHours(1), Reason = "Cleared by a later charting." };

    public static readonly IReadOnlyDictionary<string, Func<DomainResource>> All = new Dictionary<string, Func<DomainResource>>(StringComparer.Ordinal)
    {
        ["issue found"] = () => Of(Issue),
        ["issue found late, of low severity"] = () => Of(Issue with { Late = true, Severity = Severity.Low }),
        ["issue of no patient, with nothing but its evidence"] = () => Of(Issue with { Patient = null, Implicated = [], Do = "", AgeBand = "", Sources = [], RunMode = "silent" }),
        ["issue with an estimate"] = () => Of(Issue with { Estimate = TrachealPressure.Of(14m, 7.5m, 220m, Unit.MmHg) }),
        ["issue amended"] = () => Of(Issue with { Status = IssueStatus.Amended, Reason = "Judged again on changed charting.", Severity = Severity.Moderate }),
        ["issue corrected"] = () => Of(Issue with { Status = IssueStatus.Corrected, Reason = "Judged again." }),
        ["issue withdrawn"] = () => Of(Issue with { Status = IssueStatus.EnteredInError, Reason = "The row was taken back." }),
        ["issue withdrawn beside a mitigation"] = WithdrawnBesideMitigation,
        ["flag standing"] = () => Of(Flag),
        ["flag of an outlet"] = () => Of(Flag with { Subject = "Location/bed-4", Encounter = null, Severity = Severity.Low, RunMode = "replay" }),
        ["flag whose issue has no place yet"] = () => FlagBuilder.Build(Flag, Author, new Dictionary<Guid, string>()),
        ["flag shown again"] = () => Of(Flag with { Replaces = Issue.Key, Severity = Severity.Moderate }),
        ["flag ended"] = () => Of(Ended),
        ["flag withdrawn"] = () => Of(Ended with { Status = FlagStatus.EnteredInError, Reason = "The row was taken back." }),
        ["flag ended beside a person's words"] = EndedBesideAPerson,
        ["provenance of a creation"] = () => Of(WriteActivity.Create, null),
        ["provenance of an update, for an organization"] = () => Of(WriteActivity.Update, "Organization/hosp"),
        ["provenance of a withdrawal"] = () => Of(WriteActivity.Nullify, null),
        ["author"] = () => AuthorDevice.Build(Basis, null),
        ["author of an organization"] = () => AuthorDevice.Build(Basis, "Organization/hosp"),
        ["subscription"] = Subscription,
        ["anchor of the audit chain"] = () => AuditAnchorEvent.Build(new AuditHead(1, 78, new string('c', 64)), Noon),
    };

    public static DetectedIssue Of(IssueMessage message) => DetectedIssueBuilder.Build(message, Author);

    public static Flag Of(FlagMessage message) => FlagBuilder.Build(message, Author, new Dictionary<Guid, string> { [Issue.Key] = "DetectedIssue/i1" });

    private static Provenance Of(WriteActivity activity, string? organization) =>
        ProvenanceBuilder.Build("DetectedIssue/i1/_history/1", activity, ["Observation/o1/_history/2"], Basis, "live", Author, organization, Noon);

    private static DetectedIssue WithdrawnBesideMitigation()
    {
        var issue = Of(Issue);
        issue.Mitigation.Add(new DetectedIssue.MitigationComponent { Action = new CodeableConcept { Text = "Turned down" }, Author = new ResourceReference("Practitioner/n1") });
        var target = new IssueTarget(Issue with { Status = IssueStatus.EnteredInError, Reason = "The row was taken back." }, Author);
        Stop(target.TryEnd(issue));
        WriteTarget.MarkShared(issue);
        return issue;
    }

    private static Flag EndedBesideAPerson()
    {
        var flag = Of(Flag);
        flag.Code!.Text = "Regulator 4 is being replaced";
        Stop(new FlagTarget(Ended, Author, new Dictionary<Guid, string>()).TryEnd(flag));
        WriteTarget.MarkShared(flag);
        return flag;
    }

    // The subscription as a server is asked for it.
    private static Subscription Subscription() => (Subscription)FhirJsonDeserializer.STRICT.DeserializeResource(
        """
        {"resourceType":"Subscription","status":"requested","end":"2026-12-31T00:00:00Z","reason":"AirwayGuard: suction and airway rows",
         "criteria":"Observation?code=urn:oid:2.16.840.1.113883.3.9999.1.40|31001",
         "channel":{"type":"rest-hook","endpoint":"https://ag.hosp.example.org/notify/7d1c","header":["Authorization: Bearer invented"]}}
        """);

    private static void Stop(bool isEnded)
    {
        if (!isEnded)
        {
            throw new InvalidOperationException("It should have been ended.");
        }
    }
}
