using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Explaining;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>A row that was charted on the wrong patient and is corrected to another: each patient's finding is their own, and so is what a person did to it.</summary>
public sealed class MovedRowTests : IAsyncLifetime
{
    private const string Ceiling = "vacuum-above-ceiling", Other = "Patient/q";

    private PipelineBench _bench = null!;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        await _bench.PutAsync(Ward.Patient);
        await _bench.PutAsync("""{"resourceType":"Patient","id":"q","birthDate":"1970-01-02"}""");
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AnUntouchedFindingIsTakenBack_AndTheOtherPatientsIsOneOfItsOwn(bool restarts)
    {
        _bench.RestartsBetween = restarts;
        await RoundAsync(Ward.Vacuum("o1", 220, 10));

        await RoundAsync(ToOther(Ward.Vacuum("o1", 220, 10, status: "corrected")));

        Assert.Equal(["entered-in-error Patient/p", "final Patient/q"], await StandingAsync("DetectedIssue"), StringComparer.Ordinal);
        Assert.Equal(["active Patient/q", "entered-in-error Patient/p"], await StandingAsync("Flag"), StringComparer.Ordinal);
        await _bench.NothingIsDoubledAsync();
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AMitigationOnTheOldPatientIsKeptAsCorrected_AndClosesNothingOfTheOther(bool restarts)
    {
        _bench.RestartsBetween = restarts;
        await RoundAsync(Ward.Vacuum("o1", 220, 10));
        await ChangeAsync((await _bench.AllAsync("DetectedIssue"))[0], issue => issue["mitigation"] = JsonNode.Parse("""[{"action":{"text":"Turned down"}}]"""));
        await RoundAsync();

        await RoundAsync(ToOther(Ward.Vacuum("o1", 220, 10, status: "corrected")));
        await RoundAsync(ToOther(Ward.Vacuum("o2", 225, 70)));

        Assert.Equal(["corrected Patient/p", "final Patient/q", "final Patient/q"], await StandingAsync("DetectedIssue"), StringComparer.Ordinal);
        Assert.Equal(["active Patient/q", "entered-in-error Patient/p"], await StandingAsync("Flag"), StringComparer.Ordinal);
        Assert.Single((await _bench.AllAsync("DetectedIssue")).Single(issue => issue.Status() == "corrected")["mitigation"]!.AsArray());
        Assert.Equal([FindingState.Withdrawn], await StatesAsync("Patient/p", FindingKind.Occurrence));
        Assert.Equal([FindingState.Open], await StatesAsync(Other, FindingKind.Spell));
        await _bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task AnEditOnTheOldPatientIsKeptAsCorrected()
    {
        await RoundAsync(Ward.Vacuum("o1", 220, 10));
        await ChangeAsync((await _bench.AllAsync("DetectedIssue"))[0], issue => issue["severity"] = "low");

        await RoundAsync(ToOther(Ward.Vacuum("o1", 220, 10, status: "corrected")));

        Assert.Equal(["corrected Patient/p", "final Patient/q"], await StandingAsync("DetectedIssue"), StringComparer.Ordinal);
        Assert.Equal("low", (string?)(await _bench.AllAsync("DetectedIssue")).Single(issue => issue.Status() == "corrected")["severity"]);
    }

    [Fact]
    public async Task MovedBack_EachFindingKeepsTheKeyItHad()
    {
        await RoundAsync(Ward.Vacuum("o1", 220, 10));
        await RoundAsync(ToOther(Ward.Vacuum("o1", 220, 10, status: "corrected")));

        await RoundAsync(Ward.Vacuum("o1", 220, 10, status: "corrected"));
        await RoundAsync(ToOther(Ward.Vacuum("o1", 230, 10, status: "corrected")));

        Assert.Equal(["amended Patient/q", "entered-in-error Patient/p"], await StandingAsync("DetectedIssue"), StringComparer.Ordinal);
        Assert.Equal(["active Patient/q", "entered-in-error Patient/p"], await StandingAsync("Flag"), StringComparer.Ordinal);
        await _bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task TheKeyOfWhatMovedHasANumberAtItsEnd_AndIsToldAgainAsItWasRecorded()
    {
        await RoundAsync(Ward.Vacuum("o1", 220, 10));
        await RoundAsync(ToOther(Ward.Vacuum("o1", 220, 10, status: "corrected")));

        var moved = (await _bench.FindingsAsync(Other)).Where(record => record.Check == Ceiling).ToList();

        Assert.Contains(FindingKeys.Issue(Ceiling, "Observation/o1", 2), moved.Select(record => record.Key));
        await using var reader = SqliteLedgerReader.Open(Path.Combine(_bench.DataFolder, "ledger"));
        foreach (var record in moved)
        {
            var told = await new ExplainRun(reader, new ChartedText()).RunAsync(record, _bench.Basis.Rules, _bench.Basis.UnknownAge, TestContext.Current.CancellationToken);
            Assert.Equal((Other, true), (told.Patient, told.Again!.IsSame));
        }
    }

    [Fact]
    public async Task OneRegulatorThatServesTwoPatientsOneAfterTheOther_HasAFlagForEach()
    {
        await _bench.PutAsync("""{"resourceType":"Device","id":"reg","status":"active","type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/device-kind","code":"vacuum-regulator"}]}}""");
        await RoundAsync(OnRegulator(Ward.Vacuum("o1", 220, 10)));
        await ChangeAsync((await _bench.AllAsync("Flag"))[0], flag => flag["status"] = "inactive");
        await RoundAsync();

        await RoundAsync(ToOther(OnRegulator(Ward.Vacuum("o2", 225, 130))));
        Assert.Equal(["active Patient/q", "inactive Patient/p"], await StandingAsync("Flag"), StringComparer.Ordinal);
        Assert.Equal([FindingState.ClosedByPerson], await StatesAsync("Patient/p", FindingKind.Spell));
    }

    private static string OnRegulator(string row) => row.Replace("\"effectiveDateTime\"", "\"device\":{\"reference\":\"Device/reg\"},\"effectiveDateTime\"", StringComparison.Ordinal);

    private static string ToOther(string row) => row.Replace("\"Patient/p\"", "\"Patient/q\"", StringComparison.Ordinal);

    private async Task<IEnumerable<string>> StandingAsync(string type) =>
        (await _bench.AllAsync(type)).Where(one => (string?)one["code"]?["coding"]?[0]?["code"] == Ceiling)
        .Select(one => $"{one.Status()} {(string?)(one["patient"] ?? one["subject"])!["reference"]}").Order(StringComparer.Ordinal);

    private async Task<IEnumerable<FindingState>> StatesAsync(string patient, FindingKind kind) =>
        (await _bench.FindingsAsync(patient)).Where(record => record.Check == Ceiling && record.Kind == kind).Select(record => record.State);

    private async Task ChangeAsync(JsonObject resource, Action<JsonObject> change)
    {
        change(resource);
        await _bench.PutAsync(resource.ToJsonString());
    }

    private async Task RoundAsync(params string[] resources)
    {
        foreach (var resource in resources)
        {
            await _bench.PutAsync(resource);
        }

        await _bench.RoundAsync();
    }
}
