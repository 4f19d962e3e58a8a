using System.Net;
using System.Text;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Intake;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Sandbox;
using AirwayGuard.Sandbox.Http;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Intake;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>The sweep as it is put together, against a FHIR server in memory that keeps to the specification.</summary>
public sealed class SweepAgainstSandboxTests : IAsyncLifetime
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("intake-sandbox-");
    private IntakeBench _bench = null!;
    private SandboxRepository _repository = null!;
    private HttpClient _http = null!;

    public async ValueTask InitializeAsync()
    {
        _bench = await IntakeBench.OpenAsync();
        _repository = new SandboxRepository(Unflushed.Sandbox(_folder.FullName), _bench.Clock);
        _http = new HttpClient(new SandboxHandler(new SandboxServer(_repository, _bench.Clock)));
    }

    public async ValueTask DisposeAsync()
    {
        _http.Dispose();
        _repository.Dispose();
        await _bench.DisposeAsync();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task Rows_are_read_page_by_page_corrected_and_deleted_as_on_the_server_and_nothing_is_remarked()
    {
        await PutAsync("Patient", "1", """{"resourceType":"Patient","id":"1"}""");
        for (var i = 0; i < 7; i++)
        {
            await PutAsync("Observation", $"r{i}", Row($"r{i}", 100 + i));
            _bench.Turn(1);
        }

        await PutAsync("Observation", "unasked", Row("unasked", 300, "not-mapped"));
        var sweep = Sweep(pageSize: 3);
        await IntakeBench.SettleAsync(sweep);
        var first = await _bench.ReadingsAsync();
        _bench.Turn(60);
        await PutAsync("Observation", "r1", Row("r1", 90));
        using (var deleted = await _http.DeleteAsync(new Uri("http://localhost/fhir/Observation/r0"), Stop))
        {
            Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        }

        _bench.Turn(300);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal([100, 101, 102, 103, 104, 105, 106], first.Order());
        Assert.Equal([90, 102, 103, 104, 105, 106], (await _bench.ReadingsAsync()).Order());
        Assert.Empty(_bench.Health.Standing);
        Assert.Empty(await _bench.Ledger.ParkedAsync(Stop));
        Assert.True(sweep.FirstSweepDone);
    }

    [Fact]
    public async Task A_row_that_was_deleted_and_made_again_stands()
    {
        await PutAsync("Observation", "r", Row("r", 120));
        var sweep = Sweep(pageSize: 100);
        await IntakeBench.SettleAsync(sweep);
        _bench.Turn(60);
        using (await _http.DeleteAsync(new Uri("http://localhost/fhir/Observation/r"), Stop))
        {
            _bench.Turn(1);
        }

        await PutAsync("Observation", "r", Row("r", 110));
        _bench.Turn(300);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal([110], await _bench.ReadingsAsync());
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static string Row(string id, int mmHg, string code = "vacuum-pressure") => $$$"""
        {"resourceType":"Observation","id":"{{{id}}}","status":"final","subject":{"reference":"Patient/1"},"effectiveDateTime":"2026-03-02T07:00:00Z",
         "code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"{{{code}}}"}]},
         "valueQuantity":{"value":{{{mmHg}}},"system":"http://unitsofmeasure.org","code":"mm[Hg]"} }
        """;

    private SweepStep Sweep(int pageSize) => _bench.Sweep(new FhirArrivalSource(
        _http, new FhirGate(new Uri("http://localhost/fhir"), []), [.. SweepQueries.For(CodeMap.Load(ShippedMaps.Standard).Map!), .. SweepQueries.Deletions],
        pageSize, _bench.Clock));

    private async Task PutAsync(string type, string id, string body)
    {
        using var content = new StringContent(body, Encoding.UTF8, "application/fhir+json");
        using var response = await _http.PutAsync(new Uri($"http://localhost/fhir/{type}/{id}"), content, Stop);
        Assert.True(response.IsSuccessStatusCode, $"{(int)response.StatusCode}");
    }
}
