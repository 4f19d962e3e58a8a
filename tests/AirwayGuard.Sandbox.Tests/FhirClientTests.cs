using AirwayGuard.Sandbox.Http;
using Hl7.Fhir.Model;
using Hl7.Fhir.Rest;
using Hl7.Fhir.Serialization;
using Xunit;
using Task = System.Threading.Tasks.Task;

namespace AirwayGuard.Sandbox.Tests;

/// <summary>A client written by others must find its way.</summary>
public sealed class FhirClientTests : IDisposable
{
    private readonly World world = new();
    private readonly HttpClient http;
    private readonly FhirClient fhir;

    public FhirClientTests()
    {
        http = new HttpClient(new SandboxHandler(world.Server));
        fhir = new FhirClient(new Uri(World.Base), http, new FhirClientSettings
        {
            PreferredFormat = ResourceFormat.Json, ReturnPreference = ReturnPreference.Minimal, VerifyFhirVersion = true,
        });
    }

    public void Dispose()
    {
        fhir.Dispose();
        http.Dispose();
        world.Dispose();
    }

    [Fact]
    public async Task Conditional_create_and_version_aware_update()
    {
        var token = TestContext.Current.CancellationToken;
        var condition = new SearchParams().Where("identifier=urn:demo:key|k1");

        await fhir.ConditionalCreateAsync(Flag(), condition, token);
        var (status, location) = (fhir.LastResult!.Status, fhir.LastResult.Location);
        await fhir.ConditionalCreateAsync(Flag(), condition, token);
        var read = await fhir.ReadAsync<Flag>(fhir.LastResult!.Location!, ct: token);
        read!.Meta!.VersionId = "7";
        var stale = await Assert.ThrowsAsync<FhirOperationException>(() => fhir.UpdateAsync(read, versionAware: true, token));

        Assert.Equal("201", status);
        Assert.EndsWith("/_history/1", location, StringComparison.Ordinal);
        Assert.Equal(System.Net.HttpStatusCode.PreconditionFailed, stale.Status);
        Assert.NotNull(stale.Outcome);
    }

    [Fact]
    public async Task Transaction_then_search_page_by_page()
    {
        var token = TestContext.Current.CancellationToken;
        var transaction = new TransactionBuilder(World.Base, Bundle.BundleType.Transaction);
        for (var i = 0; i < 5; i++)
        {
            var patient = (Patient)FhirJsonDeserializer.STRICT.DeserializeResource(Some.Patient($"p{i}"));
            transaction.Update(patient.Id!, patient);
        }

        var answer = await fhir.TransactionAsync(transaction.ToBundle(), token);
        var found = new List<string?>();
        for (var page = await fhir.SearchAsync<Patient>(["family=muster"], pageSize: 2, ct: token); page is not null; page = await fhir.ContinueAsync(page, ct: token))
        {
            found.AddRange(page.Entry.Select(entry => entry.Resource!.Id));
        }

        Assert.Equal(5, answer!.Entry.Count);
        Assert.Equal("p0 p1 p2 p3 p4", string.Join(' ', found));
    }

    private static Flag Flag() => (Flag)FhirJsonDeserializer.STRICT.DeserializeResource(Some.Flag("k1"));
}
