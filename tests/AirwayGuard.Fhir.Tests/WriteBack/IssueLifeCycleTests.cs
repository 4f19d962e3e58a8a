using System.Net;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.WriteBack;
using Xunit;

namespace AirwayGuard.Fhir.Tests.WriteBack;

public sealed class IssueLifeCycleTests : IDisposable
{
    private readonly SinkBench _bench = new();

    public void Dispose() => _bench.Dispose();

    [Fact]
    public async Task AFinding_IsCreatedOnceWithItsProvenanceAndAuthor()
    {
        var answer = await _bench.SendAsync(Some.Issue);

        Assert.Equal(SendState.Confirmed, answer.State);
        Assert.False(answer.ChangedByPerson || answer.ClosedByPerson);
        var issue = _bench.Server.Only("DetectedIssue");
        Assert.Equal(issue["id"]!.GetValue<string>(), answer.Server!.Id);
        Assert.Equal("1", answer.Server.Version);
        var provenance = _bench.Server.Only("Provenance");
        Assert.Equal($"DetectedIssue/{answer.Server.Id}/_history/1", provenance["target"]![0]!["reference"]!.GetValue<string>());
        Assert.Equal("CREATE", provenance["activity"]!["coding"]![0]!["code"]!.GetValue<string>());
        Assert.Equal($"Device/{_bench.Server.Only("Device")["id"]}", issue["author"]!["reference"]!.GetValue<string>());
    }

    [Fact]
    public async Task TheSameMessageTwice_LeavesOneResourceOneVersionAndOneProvenance()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Restart();
        var again = await _bench.SendAsync(Some.Issue);

        Assert.Equal(SendState.Confirmed, again.State);
        Assert.Equal("1", again.Server!.Version);
        Assert.Equal("1", _bench.Server.Only("DetectedIssue")["meta"]!["versionId"]!.GetValue<string>());
        Assert.Single(_bench.Server.All("Provenance"));
        Assert.Single(_bench.Server.All("Device"));
    }

    [Fact]
    public async Task AnAmendedFinding_IsWrittenOverOurOwnVersion()
    {
        await _bench.SendAsync(Some.Issue);
        var answer = await _bench.SendAsync(Some.Amended);

        Assert.Equal("2", answer.Server!.Version);
        Assert.Equal("amended", StatusOf(_bench));
        Assert.Contains(_bench.Server.Headers, headers => headers.Contains("If-Match: W/\"1\"", StringComparison.Ordinal));
        Assert.Equal("CREATE UPDATE", string.Join(' ', _bench.Server.All("Provenance").Select(one => one["activity"]!["coding"]![0]!["code"]!.GetValue<string>())));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AKeyThatStandsOnAnotherPatient_IsNeitherWrittenOverNorCountedAsAnswered(bool isMitigated)
    {
        await _bench.SendAsync(Some.Issue);
        if (isMitigated)
        {
            _bench.Server.ChangeByPerson("DetectedIssue", Mitigate);
        }

        _bench.Forget();
        var answer = await _bench.SendAsync(Some.Issue with { Patient = "Patient/p2" });

        Assert.Equal((isMitigated ? SendState.Confirmed : SendState.Parked, isMitigated ? null : "AG5209", false), (answer.State, answer.Code, answer.ClosedByPerson));
        Assert.Equal("Patient/p1", (string?)_bench.Server.Only("DetectedIssue")["patient"]!["reference"]);
        Assert.Equal("final", StatusOf(_bench));
    }

    // A ledger that was lost knows nothing of whom the key was first written for.
    [Fact]
    public async Task AWithdrawalOfAKeyThatStandsOnAnotherPatient_ChangesNothingAndIsTold()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Forget();

        var answer = await _bench.SendAsync(Some.Withdrawn with { Patient = "Patient/p2" });

        Assert.Equal((SendState.Parked, "AG5209"), (answer.State, answer.Code));
        Assert.Equal(("Patient/p1", "final"), ((string?)_bench.Server.Only("DetectedIssue")["patient"]!["reference"], StatusOf(_bench)));
    }

    [Fact]
    public async Task AWithdrawnFindingThatNobodyElseTouched_IsEnteredInError()
    {
        await _bench.SendAsync(Some.Issue);
        var answer = await _bench.SendAsync(Some.Withdrawn);

        Assert.Equal(SendState.Confirmed, answer.State);
        Assert.Equal("entered-in-error", StatusOf(_bench));
        Assert.Equal("NULLIFY", _bench.Server.All("Provenance").Last()["activity"]!["coding"]![0]!["code"]!.GetValue<string>());
    }

    [Fact]
    public async Task AWithdrawnFindingWithAMitigation_BecomesCorrectedAndKeepsThePersonsWords()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.ChangeByPerson("DetectedIssue", Mitigate);
        var answer = await _bench.SendAsync(Some.Withdrawn);

        Assert.Equal(SendState.Confirmed, answer.State);
        Assert.True(answer.ChangedByPerson);
        Assert.True(answer.ClosedByPerson);
        var issue = _bench.Server.Only("DetectedIssue");
        Assert.Equal("corrected", StatusOf(_bench));
        Assert.Equal("Turned down", issue["mitigation"]![0]!["action"]!["text"]!.GetValue<string>());
        Assert.EndsWith("Corrected. The row was taken back.", issue["detail"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task AWithdrawalBesideAPerson_SentTwice_LeavesOneVersionAndOneProvenanceOfIt()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.ChangeByPerson("DetectedIssue", Mitigate);
        await _bench.SendAsync(Some.Withdrawn);
        _bench.Restart();
        var again = await _bench.SendAsync(Some.Withdrawn);

        Assert.True(again.ChangedByPerson);
        Assert.Equal("3", _bench.Server.Only("DetectedIssue")["meta"]!["versionId"]!.GetValue<string>());
        Assert.Equal(2, _bench.Server.All("Provenance").Count());
    }

    [Fact]
    public async Task AnAmendmentToAFindingThatAPersonChanged_LeavesItAsItIs()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.ChangeByPerson("DetectedIssue", issue => issue["severity"] = "low");
        var answer = await _bench.SendAsync(Some.Amended);

        Assert.Equal(SendState.Confirmed, answer.State);
        Assert.True(answer.ChangedByPerson);
        Assert.False(answer.ClosedByPerson);
        Assert.Equal("1", answer.Server!.Version);
        Assert.Equal("final", StatusOf(_bench));
        Assert.Equal("low", _bench.Server.Only("DetectedIssue")["severity"]!.GetValue<string>());
    }

    [Fact]
    public async Task AWithdrawalOfAFindingThatAPersonChangedWithoutMitigation_BecomesCorrected()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.ChangeByPerson("DetectedIssue", issue => issue["severity"] = "low");
        var answer = await _bench.SendAsync(Some.Withdrawn);

        Assert.True(answer.ChangedByPerson);
        Assert.False(answer.ClosedByPerson);
        Assert.Equal("corrected", StatusOf(_bench));
        Assert.Equal("low", _bench.Server.Only("DetectedIssue")["severity"]!.GetValue<string>());
    }

    [Fact]
    public async Task AFindingThatAPersonDeleted_IsNotResurrected()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.DeleteByPerson("DetectedIssue");
        var answer = await _bench.SendAsync(Some.Amended);

        Assert.Equal(SendState.Confirmed, answer.State);
        Assert.Equal((true, false), (answer.ChangedByPerson, answer.ClosedByPerson));
        Assert.Empty(_bench.Server.All("DetectedIssue"));
        Assert.Equal(1, _bench.Server.Writes("DetectedIssue"));
    }

    [Fact]
    public async Task A404FromSomethingInBetween_IsNotTakenForADeletion()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.Once(HttpMethod.Get, "DetectedIssue", HttpStatusCode.NotFound);
        _bench.Server.Once(request => request.RequestUri!.Query.Contains("identifier", StringComparison.Ordinal), () => new HttpResponseMessage(HttpStatusCode.BadGateway));
        var answer = await _bench.SendAsync(Some.Amended);

        Assert.Equal(SendState.Unknown, answer.State);
        Assert.False(answer.ClosedByPerson);
        Assert.Equal("AG5109", answer.Code);
    }

    [Fact]
    public async Task DeletedWhileItIsWritten_IsNotResurrected()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Server.Once(request => request.Method == HttpMethod.Put, () =>
        {
            _bench.Server.DeleteByPerson("DetectedIssue");
            return new HttpResponseMessage(HttpStatusCode.Gone);
        });
        var answer = await _bench.SendAsync(Some.Amended);

        Assert.Equal((true, false), (answer.ChangedByPerson, answer.ClosedByPerson));
        Assert.Equal(SendState.Confirmed, answer.State);
        Assert.Empty(_bench.Server.All("DetectedIssue"));
    }

    [Fact]
    public async Task AnAuthorWhoseVersionsChanged_IsUpdatedOnceAndNotDoubled()
    {
        await _bench.SendAsync(Some.Issue);
        await _bench.SendAsync(Some.Amended with { Basis = Some.Basis with { SoftwareVersion = "1.5.0" } });
        await _bench.SendAsync(Some.Withdrawn with { Basis = Some.Basis with { SoftwareVersion = "1.5.0" } });

        var device = _bench.Server.Only("Device");
        Assert.Equal("1.5.0", device["version"]![0]!["value"]!.GetValue<string>());
        Assert.Equal(2, _bench.Server.Writes("Device"));
    }

    [Fact]
    public async Task WithAnOrganization_TheAgentWritesOnItsBehalf_AndWithoutOneItDoesNot()
    {
        using var bench = new SinkBench(new FhirSinkOptions { Organization = "Organization/hosp" });
        await bench.SendAsync(Some.Issue);
        await _bench.SendAsync(Some.Issue);

        Assert.Equal("Organization/hosp", bench.Server.Only("Provenance")["agent"]![0]!["onBehalfOf"]!["reference"]!.GetValue<string>());
        Assert.Null(_bench.Server.Only("Provenance")["agent"]![0]!["onBehalfOf"]);
    }

    private static string StatusOf(SinkBench bench) => bench.Server.Only("DetectedIssue")["status"]!.GetValue<string>();

    private static void Mitigate(JsonObject issue) =>
        issue["mitigation"] = new JsonArray(new JsonObject { ["action"] = new JsonObject { ["text"] = "Turned down" } });
}
