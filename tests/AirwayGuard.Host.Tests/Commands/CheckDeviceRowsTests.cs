using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>A reading whose subject is a device is charged to one patient at the most, whatever kind of row named the device.</summary>
public sealed class CheckDeviceRowsTests : IDisposable
{
    private const string Regulator = """{"resourceType":"Device","id":"r1","status":"active","type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/device-kind","code":"vacuum-regulator"}]}}""";
    private const string Other = """{"resourceType":"Patient","id":"q","birthDate":"1961-05-04"}""";

    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task BetweenTwoProceduresItIsOfTheEarlierOnesPatient()
    {
        var answer = await CheckAsync(Regulator, Other, Procedure("a", "p", "10:00"), Procedure("b", "q", "10:40"), Reading("10:05"));

        Assert.Equal(["Patient/p"], Charged(answer));
        Assert.DoesNotContain(answer.CannotTell, one => one.StartsWith("vacuum-above-ceiling ", StringComparison.Ordinal));
    }

    [Fact]
    public async Task SoItIsBetweenTwoPassRowsThatNameTheDevice()
    {
        var answer = await CheckAsync(Regulator, Other, Pass("a", "p", "10:00"), Pass("b", "q", "10:40"), Reading("10:05"));

        Assert.Equal(["Patient/p"], Charged(answer));
    }

    [Fact]
    public async Task AfterTheStayOfWhoUsedItLastNobodyIsCharged()
    {
        var answer = await CheckAsync(
            Regulator, """{"resourceType":"Encounter","id":"e1","status":"finished","class":{"code":"IMP"},"subject":{"reference":"Patient/p"},"period":{"start":"2026-02-28T00:00:00Z","end":"2026-03-01T12:00:00Z"}}""",
            Procedure("a", "p", "10:00", ""","encounter":{"reference":"Encounter/e1"}"""), Reading("13:00"));

        Assert.Empty(Charged(answer));
        Assert.Contains("vacuum-above-ceiling Observation/rd: which patient the regulator serves", answer.CannotTell, StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("2062-01-15", "AG2130 Observation/c", "date of calibration that is not in the future")]
    [InlineData("2025", "", "day of the calibration")]
    public async Task ACalibrationOfWhichNobodyCanTellWhenItWasIsOpen(string date, string problem, string missing)
    {
        var answer = await CheckAsync(
            Regulator, Procedure("a", "p", "10:00"),
            Given.Observation("c", $"\"{date}\"", "valueDateTime", "2026-02-27T09:00:00Z", code: "calibrated-on").Replace("Patient/p", "Device/r1", StringComparison.Ordinal));

        Assert.Equal(problem, string.Join(';', answer.Problems));
        Assert.Contains(answer.CannotTell, one => one.StartsWith("regulator-calibration-overdue ", StringComparison.Ordinal) && one.EndsWith(missing, StringComparison.Ordinal));
    }

    private static string Procedure(string id, string patient, string at, string more = "") =>
        $$$"""{"resourceType":"Procedure","id":"{{{id}}}","status":"completed","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},"subject":{"reference":"Patient/{{{patient}}}"},"performedDateTime":"2026-03-01T{{{at}}}:00Z","usedReference":[{"reference":"Device/r1"}]{{{more}}}}""";

    private static string Pass(string id, string patient, string at) =>
        Given.Observation(id, "true", "valueBoolean", $"2026-03-01T{at}:00Z", code: "suction-pass").Replace("Patient/p", "Patient/" + patient, StringComparison.Ordinal)[..^1]
        + ""","device":{"reference":"Device/r1"}}""";

    private static string Reading(string at) =>
        Given.Vacuum("rd", "220", $"2026-03-01T{at}:00Z").Replace("Patient/p", "Device/r1", StringComparison.Ordinal);

    private static IReadOnlyList<string> Charged(CheckAnswer answer) =>
    [
        .. answer.Report.GetProperty("findings").EnumerateArray().Where(one => one.GetProperty("check").GetString() == "vacuum-above-ceiling")
            .Select(one => one.GetProperty("patient").GetString()!),
    ];

    private Task<CheckAnswer> CheckAsync(params string[] rows) => CheckAnswer.OfAsync(_folder.File("rows.ndjson", [Given.Adult, .. rows]));
}
