using System.Globalization;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>
/// Charting comes late, out of order, and is put right afterwards. What stood on the server meanwhile is mended under its own key, or
/// taken back: nothing is doubled, and nobody inherits another's Flag.
/// </summary>
public sealed class TrapLifeCycleTests : AllChecksLifeCycle
{
    private const string Row = "https://airwayguard.example.org/fhir/CodeSystem/airway-care", Answers = "https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer";

    // Who charts the indication three hours later has charted it: the finding that it was missing is taken back.
    [Fact]
    public async Task ARowChartedAfterItsFindingWasWritten_TakesItBack()
    {
        await RoundAsync(3, Ward.Patient, Ward.Pass("s1", 8, 10));
        Assert.Equal("final", Assert.Single(await Bench.IssuesAsync("no-indication-charted")).Status());

        await RoundAsync(1, Coded("i1", "suction-indication", "visible-secretions", 10));

        Assert.Equal("entered-in-error", Assert.Single(await Bench.IssuesAsync("no-indication-charted")).Status());
        await Bench.NothingIsDoubledAsync();
    }

    // Forty minutes is an ordinary lag: nothing is called missing meanwhile, and what breached is judged at its own time.
    [Fact]
    public async Task AColumnChartedFortyMinutesLate_IsWaitedFor()
    {
        await Bench.PutAsync(Ward.Patient);
        await Bench.PutAsync(Ward.Pass("s1", 25, 10));
        await Bench.RoundAsync(TimeSpan.FromMinutes(50));
        Assert.Empty(await Bench.IssuesAsync("no-indication-charted"));
        Assert.Empty(await Bench.IssuesAsync("preoxygenation-missing"));

        await RoundAsync(3, Coded("i1", "suction-indication", "visible-secretions", 10), Flag("o1", "preoxygenation", 10));

        Assert.Empty(await Bench.IssuesAsync("no-indication-charted"));
        Assert.Empty(await Bench.IssuesAsync("preoxygenation-missing"));
        Assert.False(Assert.Single(await RecordsAsync("pass-too-long")).Late);
    }

    // The pass becomes a Procedure's, and keeps the name it was found under.
    [Fact]
    public async Task AProcedureThatArrivesAfterItsRows_LeavesOneIssueUnderItsKey()
    {
        await RoundAsync(1, Ward.Patient, Ward.Pass("s1", 25, 10));
        var before = Assert.Single(await Bench.IssuesAsync("pass-too-long"));

        await RoundAsync(1, Procedure("p1", 10));

        var after = Assert.Single(await Bench.IssuesAsync("pass-too-long"));
        Assert.Equal((before.Key(), before.Name()), (after.Key(), after.Name()));
        Assert.NotEqual("entered-in-error", after.Status(), StringComparer.Ordinal);
        await Bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task WhenTheEarliestMemberIsEnteredInError_ItsFindingGoesAndThePassIsFoundUnderAnotherName()
    {
        await RoundAsync(1, Ward.Patient, Ward.Pass("s1", 25, 10));
        await RoundAsync(1, Coded("r1", "suction-reaction", "desaturation", 10));

        await RoundAsync(1, Ward.Pass("s1", 25, 10, status: "entered-in-error"), Ward.Pass("s2", 26, 10));

        Assert.Equal(["entered-in-error", "final"], (await Bench.IssuesAsync("pass-too-long")).Select(issue => issue.Status()).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.Single(await Bench.IssuesAsync("desaturation-with-suction"), issue => issue.Status() != "entered-in-error");
        await Bench.NothingIsDoubledAsync();
    }

    // The regulator stays at the bed; the Flag goes with its patient and the next one begins with none.
    [Fact]
    public async Task WhenTheBedsPatientChanges_TheFlagEndsAndTheNextPatientHasNone()
    {
        await RoundAsync(1, Ward.Patient, Encounter("e1", "p", 0, null), Regulator, Procedure("s1", 5, "reg"), OfRegulator("v1", 220, 5));
        var flag = Assert.Single(await Bench.FlagsAsync());
        Assert.Equal(("active", "Patient/p"), (flag.Status(), (string)flag["subject"]!["reference"]!));

        await RoundAsync(
            3, Encounter("e1", "p", 0, 90), Ward.Patient.Replace("\"p\"", "\"q\"", StringComparison.Ordinal), Encounter("e2", "q", 90, null),
            Procedure("s2", 120, "reg", "q"), OfRegulator("v2", 100, 120));

        flag = Assert.Single(await Bench.FlagsAsync());
        Assert.Equal(("inactive", "Patient/p"), (flag.Status(), (string)flag["subject"]!["reference"]!));
    }

    // One outlet, one Flag on its place, however many patients lie beside it.
    [Fact]
    public async Task AnOutletThatServesTwoBeds_HasOneFlagOnItsLocation()
    {
        await RoundAsync(
            1, Ward.Patient, Ward.Patient.Replace("\"p\"", "\"q\"", StringComparison.Ordinal), Encounter("e1", "p", 0, null), Encounter("e2", "q", 0, null), Supply("w1", 250, 10));

        var flag = Assert.Single(await Bench.FlagsAsync("wall-supply-low"));
        Assert.Equal(("active", "Location/room"), (flag.Status(), (string)flag["subject"]!["reference"]!));
        Assert.Single(await Bench.IssuesAsync("wall-supply-low"));

        await RoundAsync(1, Supply("w2", 320, 70));
        Assert.Equal("inactive", Assert.Single(await Bench.FlagsAsync("wall-supply-low")).Status());
    }

    private static string Regulator =>
        """{"resourceType":"Device","id":"reg","status":"active","type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/device-kind","code":"vacuum-regulator"}]},"location":{"reference":"Location/room"}}""";

    private static string Coded(string id, string code, string answer, int minutes) =>
        Observation(id, code, "Patient/p", minutes, $$""" "valueCodeableConcept":{"coding":[{"system":"{{Answers}}","code":"{{answer}}"}]}""");

    private static string Flag(string id, string code, int minutes) => Observation(id, code, "Patient/p", minutes, "\"valueBoolean\":true");

    private static string OfRegulator(string id, int mmHg, int minutes) => Observation(
        id, "vacuum-pressure", "Device/reg", minutes,
        $$$""" "valueQuantity":{"value":{{{mmHg}}},"unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"},"component":[{"code":{"coding":[{"system":"{{{Row}}}","code":"vacuum-reading-method"}]},"valueCodeableConcept":{"coding":[{"system":"{{{Answers}}}","code":"occluded"}]}}]""");

    private static string Supply(string id, int mmHg, int minutes) => Observation(
        id, "full-line-vacuum", "Location/room", minutes, $$""" "valueQuantity":{"value":{{mmHg}},"unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"}""");

    private static string Observation(string id, string code, string subject, int minutes, string value) =>
        $$"""{"resourceType":"Observation","id":"{{id}}","status":"final","code":{"coding":[{"system":"{{Row}}","code":"{{code}}"}]},"subject":{"reference":"{{subject}}"},"effectiveDateTime":"{{At(minutes)}}",{{value}}}""";

    private static string Procedure(string id, int minutes, string? uses = null, string patient = "p") =>
        $$"""{"resourceType":"Procedure","id":"{{id}}","status":"completed","code":{"coding":[{"system":"{{Row}}","code":"suction-pass"}]},"subject":{"reference":"Patient/{{patient}}"},"performedPeriod":{"start":"{{At(minutes)}}","end":"{{At(minutes)}}"}{{(uses is null ? "" : $$""","usedReference":[{"reference":"Device/{{uses}}"}]""")}}}""";

    private static string Encounter(string id, string patient, int from, int? to) =>
        $$$"""{"resourceType":"Encounter","id":"{{{id}}}","status":"{{{(to is null ? "in-progress" : "finished")}}}","class":{"system":"http://terminology.hl7.org/CodeSystem/v3-ActCode","code":"IMP"},"subject":{"reference":"Patient/{{{patient}}}"},"period":{"start":"{{{At(from)}}}"{{{(to is { } end ? $",\"end\":\"{At(end)}\"" : "")}}}},"location":[{"location":{"reference":"Location/room"}}]}""";

    private static string At(int minutes) => Ward.Morning.AddMinutes(minutes).ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private async Task RoundAsync(int hours, params string[] resources)
    {
        await PutAsync(resources);
        await Bench.RoundAsync(TimeSpan.FromHours(hours));
    }
}
