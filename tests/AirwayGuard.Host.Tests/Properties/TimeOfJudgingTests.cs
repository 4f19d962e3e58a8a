using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Host.Tests.Properties;

/// <summary>The time at which files are judged: the latest they carry, or the one asked for, and nothing of what was done after it.</summary>
public sealed class TimeOfJudgingTests
{
    private const string Kind = "https://airwayguard.example.org/fhir/CodeSystem/device-kind", Care = "https://airwayguard.example.org/fhir/CodeSystem/airway-care";

    private static readonly string Patient = """{"resourceType":"Patient","id":"p1","birthDate":"1982-12-24"}""";

    private static readonly string Stay =
        """{"resourceType":"Encounter","id":"e","status":"in-progress","class":{"code":"IMP"},"subject":{"reference":"Patient/p1"},"period":{"start":"2026-03-01T06:00:00Z"}}""";

    private static readonly string Regulator =
        $$$"""{"resourceType":"Device","id":"r","status":"active","type":{"coding":[{"system":"{{{Kind}}}","code":"vacuum-regulator"}]}}""";

    private static readonly string Metric =
        $$$"""{"resourceType":"DeviceMetric","id":"m","type":{"coding":[{"system":"{{{Care}}}","code":"vacuum-pressure"}]},"source":{"reference":"Device/r"},"category":"measurement","calibration":[{"state":"calibrated","time":"2024-03-01T06:00:00Z"}]}""";

    // A row that names a device holds it for an instant; the time of that is not later than the row's.
    [Fact]
    public void At_twelve_hours_to_the_instant_a_reading_is_not_stale()
    {
        Assert.DoesNotContain(Judge(null, Patient, Stay, Regulator, Row("tube-inner-diameter", "07:00", 8, "mm", null), Row("vacuum-pressure", "08:00", 100, "mm[Hg]", null), Pass("19:00"), Row("vacuum-set", "20:00", 100, "mm[Hg]", "Device/r")).Findings, finding => finding.Check == "vacuum-reading-stale");
        Assert.Contains(Judge(null, Patient, Stay, Regulator, Row("tube-inner-diameter", "07:00", 8, "mm", null), Row("vacuum-pressure", "08:00", 100, "mm[Hg]", null), Pass("19:00"), Row("vacuum-set", "20:01", 100, "mm[Hg]", "Device/r")).Findings, finding => finding.Check == "vacuum-reading-stale");
    }

    [Fact]
    public void What_an_act_after_the_time_asked_for_used_was_not_used_yet()
    {
        string[] before = [Patient, Stay, Regulator, Metric, Row("vacuum-pressure", "08:00", 100, "mm[Hg]", "DeviceMetric/m")];

        foreach (var report in new[] { Judge("12:00", before), Judge("12:00", [.. before, Pass("19:00", "Device/r")]) })
        {
            Assert.Equal("Patient/p1", Assert.Single(report.Findings, finding => finding.Check == "regulator-calibration-overdue").Patient);
        }
    }

    private static ReferenceReport Judge(string? asOf, params string[] resources) =>
        EngineRuns.Judge(resources, ReferenceJudge.StrictRanges, asOf is null ? null : DateTimeOffset.Parse($"2026-03-01T{asOf}:00Z", null), UnknownAge.CannotTell);

    private static string Row(string concept, string at, decimal value, string unit, string? device) =>
        $$$"""{"resourceType":"Observation","id":"{{{concept}}}","status":"final","code":{"coding":[{"system":"{{{Care}}}","code":"{{{concept}}}"}]},"subject":{"reference":"Patient/p1"},"effectiveDateTime":"2026-03-01T{{{at}}}:00Z",{{{(device is null ? "" : $"\"device\":{{\"reference\":\"{device}\"}},")}}}"valueQuantity":{"value":{{{value}}},"unit":"{{{unit}}}","system":"http://unitsofmeasure.org","code":"{{{unit}}}"}}""";

    private static string Pass(string at, string? used = null) =>
        $$$"""{"resourceType":"Procedure","id":"sx","status":"completed","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},"subject":{"reference":"Patient/p1"},"performedDateTime":"2026-03-01T{{{at}}}:00Z"{{{(used is null ? "" : $",\"usedReference\":[{{\"reference\":\"{used}\"}}]")}}}}""";
}
