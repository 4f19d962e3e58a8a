using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Fhir.Tests.WriteBack;

/// <summary>Valid messages, all invented.</summary>
internal static class Some
{
    public static readonly DateTimeOffset Noon = new(2026, 3, 1, 12, 0, 0, TimeSpan.FromHours(10));

    public static readonly MessageBasis Basis = new("strict-ranges", "2026.03", new string('a', 64), new string('b', 64), "1.4.0", "7");

    public static readonly IssueMessage Issue = new(
        FindingKeys.Issue("vacuum-above-ceiling", "Observation/o1"), "vacuum-above-ceiling", IssueStatus.Final, Severity.High, "Vacuum above ceiling",
        "Vacuum 220 mm[Hg] is above 150 mm[Hg].", "Set the regulator to 150 mm[Hg] or less.", "Patient/p1", ["Observation/o1"],
        [new MessageEvidence("Observation/o1/_history/2", "220 mmHg"), new MessageEvidence("Device/d1", "")],
        Noon.AddMinutes(3), Noon, false, "adult", ["An invented guideline (disputed)"], "", "live", Basis);

    public static readonly FlagMessage Flag = new(
        FindingKeys.Flag("vacuum-above-ceiling", "Device/r1", FindingKeys.Start), "vacuum-above-ceiling", FlagStatus.Active, Severity.High,
        "Vacuum 220 mm[Hg] is above 150 mm[Hg].", "Patient/p1", "Encounter/e1", Noon.AddMinutes(3), null, [Issue.Key], null, "",
        [new MessageEvidence("Observation/o1/_history/2", "220 mmHg")], "live", Basis);

    public static readonly FlagMessage Cleared = Flag with { Status = FlagStatus.Inactive, PeriodEnd = Noon.AddHours(1), Reason = "Cleared by a later charting." };

    public static readonly FlagMessage WithdrawnFlag = Flag with { Status = FlagStatus.EnteredInError, PeriodEnd = Noon.AddHours(1), Reason = "The row was taken back." };

    public static readonly IssueMessage Amended = Issue with { Status = IssueStatus.Amended, Say = "Vacuum 180 mm[Hg] is above 150 mm[Hg].", Reason = "Judged again on changed charting." };

    public static readonly IssueMessage Withdrawn = Issue with { Status = IssueStatus.EnteredInError, Reason = "The row was taken back." };

    public static Outgoing Of(IssueMessage message) => new(message.Key, MessageJson.Issue, default, MessageJson.Write(message));

    public static Outgoing Of(FlagMessage message) => new(message.Key, MessageJson.Flag, default, MessageJson.Write(message));
}
