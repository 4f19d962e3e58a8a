using System.Net;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.WriteBack;
using AirwayGuard.Sandbox;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.TestKit.Pipeline;
using Hl7.Fhir.Model;
using Microsoft.Extensions.Time.Testing;
using Task = System.Threading.Tasks.Task;

namespace AirwayGuard.Fhir.Tests.WriteBack;

/// <summary>The life cycle against a real FHIR server in memory, which checks content strictly.</summary>
public sealed class AgainstSandboxTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("airwayguard-writeback-");
    private readonly FakeTimeProvider _clock = new(Some.Noon.AddMinutes(5));
    private readonly SandboxRepository _repository;
    private readonly HttpClient _client;
    private readonly FhirHttp _http;
    private readonly FhirSink _sink;

    public AgainstSandboxTests()
    {
        _repository = new SandboxRepository(Unflushed.Sandbox(_folder.FullName), _clock);
        _client = new HttpClient(new SandboxHandler(new SandboxServer(_repository, _clock)));
        _http = new FhirHttp(_client, new FhirGate(new Uri("http://localhost/fhir"), []), _clock);
        _sink = new FhirSink(_http, new FhirSinkOptions(), _clock);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose()
    {
        _sink.Dispose();
        _client.Dispose();
        _repository.Dispose();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task AFindingAndItsFlag_GoThroughTheirLives_WithOneProvenancePerVersion()
    {
        var issue = Confirmed(await _sink.SendAsync(Some.Of(Some.Issue), null, DateTimeOffset.MaxValue, Stop));
        var flag = Confirmed(await _sink.SendAsync(Some.Of(Some.Flag), null, DateTimeOffset.MaxValue, Stop));
        var amended = Confirmed(await _sink.SendAsync(Some.Of(Some.Amended), issue, DateTimeOffset.MaxValue, Stop));
        var cleared = Confirmed(await _sink.SendAsync(Some.Of(Some.Cleared), flag, DateTimeOffset.MaxValue, Stop));

        Assert.Equal((issue.Id, flag.Id), (amended.Id, cleared.Id));
        Assert.Equal(4, (await AllAsync("Provenance")).Count);
        var stands = (Flag)(await _http.ReadAsync("Flag", flag.Id, Stop)).Resource!;
        Assert.Equal(Flag.FlagStatus.Inactive, stands.Status);
        Assert.Equal($"DetectedIssue/{issue.Id}", ((ResourceReference)stands.Extension[0].Value!).Reference);
    }

    [Fact]
    public async Task EveryMessageTwice_LeavesOneResourceAndOneProvenancePerVersion()
    {
        ServerVersion? last = null;
        foreach (var message in new[] { Some.Issue, Some.Issue, Some.Amended, Some.Amended, Some.Withdrawn, Some.Withdrawn })
        {
            Confirmed(await _sink.SendAsync(Some.Of(message), last, DateTimeOffset.MaxValue, Stop));
            last = Confirmed(await _sink.SendAsync(Some.Of(message), last, DateTimeOffset.MaxValue, Stop));
        }

        Assert.Single(await AllAsync("DetectedIssue"));
        Assert.Single(await AllAsync("Device"));
        Assert.Equal(3, (await AllAsync("Provenance")).Count);
        Assert.Equal("3", last!.Version);
    }

    [Fact]
    public async Task AMitigatedFinding_BecomesCorrectedOnWithdrawal()
    {
        var left = Confirmed(await _sink.SendAsync(Some.Of(Some.Issue), null, DateTimeOffset.MaxValue, Stop));
        var issue = (DetectedIssue)(await _http.ReadAsync("DetectedIssue", left.Id, Stop)).Resource!;
        issue.Mitigation.Add(new DetectedIssue.MitigationComponent { Action = new CodeableConcept { Text = "Turned down" } });
        Assert.True((await _http.UpdateAsync(issue, left.Id, left.Version, Stop)).IsDone);

        var answer = await _sink.SendAsync(Some.Of(Some.Withdrawn), left, DateTimeOffset.MaxValue, Stop);

        Assert.True(answer is { State: SendState.Confirmed, ChangedByPerson: true, ClosedByPerson: true });
        var stands = (DetectedIssue)(await _http.ReadAsync("DetectedIssue", left.Id, Stop)).Resource!;
        Assert.Equal(ObservationStatus.Corrected, stands.Status);
        Assert.Single(stands.Mitigation);
    }

    [Fact]
    public async Task ADeletedFlag_StaysDeleted()
    {
        var left = Confirmed(await _sink.SendAsync(Some.Of(Some.Flag), null, DateTimeOffset.MaxValue, Stop));
        using var deleted = await _client.DeleteAsync(new Uri($"http://localhost/fhir/Flag/{left.Id}"), Stop);
        Assert.True(deleted.IsSuccessStatusCode);

        var answer = await _sink.SendAsync(Some.Of(Some.Cleared), left, DateTimeOffset.MaxValue, Stop);

        Assert.True(answer is { State: SendState.Confirmed, ClosedByPerson: true });
        using var gone = await _client.GetAsync(new Uri($"http://localhost/fhir/Flag/{left.Id}"), Stop);
        Assert.Equal(HttpStatusCode.Gone, gone.StatusCode);
    }

    private static ServerVersion Confirmed(SinkAnswer answer)
    {
        Assert.Equal((SendState.Confirmed, null), (answer.State, answer.Code));
        return answer.Server!;
    }

    private async Task<List<Resource>> AllAsync(string type) =>
        [.. ((Bundle)(await _http.SearchAsync(type, [("_count", "100")], Stop)).Resource!).Entry.Select(entry => entry.Resource!)];
}
