using System.Net.Http.Headers;
using System.Text;
using AirwayGuard.Core.Diagnostics;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Polly.CircuitBreaker;
using Polly.Timeout;

namespace AirwayGuard.Fhir.Client;

/// <summary>
/// A FHIR server over HTTP and JSON. Each call answers a value; only cancellation by the caller and bugs throw. Safe for
/// concurrent use. Every address goes through the gate.
/// </summary>
/// <param name="http">Has its resilience and token handlers already; see <see cref="FhirClientServices"/>.</param>
/// <param name="clock">For Retry-After given as a date.</param>
public sealed class FhirHttp(HttpClient http, FhirGate gate, TimeProvider clock)
{
    private const string Json = "application/fhir+json";

    /// <summary>Marks a request that may be sent twice though it is a POST: it carries If-None-Exist.</summary>
    internal static readonly HttpRequestOptionsKey<bool> MayRepeat = new("AirwayGuard.MayRepeat");

    private readonly FhirAnswerReader _reader = new(gate, clock);

    /// <summary>The gate its addresses go through.</summary>
    public FhirGate Gate => gate;

    /// <summary>Reads the current version of a resource.</summary>
    public Task<FhirAnswer> ReadAsync(string type, string id, CancellationToken stop) =>
        SendAsync(HttpMethod.Get, $"{type}/{Uri.EscapeDataString(id)}", null, null, needsBody: true, stop);

    /// <summary>Searches; the answer's resource is a Bundle.</summary>
    /// <param name="parameters">Names and values, not yet escaped.</param>
    public Task<FhirAnswer> SearchAsync(string type, IEnumerable<(string Name, string Value)> parameters, CancellationToken stop)
    {
        var query = string.Join('&', parameters.Select(one => $"{Uri.EscapeDataString(one.Name)}={Uri.EscapeDataString(one.Value)}"));
        return PageAsync($"{type}?{query}", stop);
    }

    /// <summary>Follows a link of a Bundle, if the gate lets it.</summary>
    public async Task<FhirAnswer> PageAsync(string address, CancellationToken stop)
    {
        var answer = await SendAsync(HttpMethod.Get, address, null, null, needsBody: true, stop);
        return answer.IsDone && answer.Resource is not Bundle ? answer with { Reply = FhirReply.Unclear, Resource = null, Code = Codes.NotFhir } : answer;
    }

    /// <summary>All resources of a type that carry an identifier; entries of other types are passed over.</summary>
    public async Task<FhirMatches> FindAsync(string type, string system, string value, CancellationToken stop)
    {
        var answer = await SearchAsync(type, [("identifier", SearchValue.Token(system, value))], stop);
        return new FhirMatches(answer, answer.Resource is Bundle bundle ? MatchesIn(bundle, type, system, value) : []);
    }

    /// <summary>Creates unless a resource with this identifier is there (If-None-Exist). May be repeated safely.</summary>
    public Task<FhirAnswer> CreateOnceAsync(Resource resource, string system, string value, CancellationToken stop) =>
        CreateOnceAsync(resource, "identifier", system, value, stop);

    /// <summary>The same for an identifier that stands elsewhere, by the search parameter that finds it.</summary>
    public Task<FhirAnswer> CreateOnceAsync(Resource resource, string parameter, string system, string value, CancellationToken stop) =>
        SendAsync(HttpMethod.Post, resource.TypeName, resource, ("If-None-Exist", $"{parameter}={Uri.EscapeDataString(SearchValue.Token(system, value))}"), needsBody: false, stop);

    /// <summary>Creates; never repeated by itself, since a second one would stand beside the first.</summary>
    public Task<FhirAnswer> CreateAsync(Resource resource, CancellationToken stop) =>
        SendAsync(HttpMethod.Post, resource.TypeName, resource, null, needsBody: false, stop);

    /// <summary>Writes over the version named (If-Match) and no other.</summary>
    public Task<FhirAnswer> UpdateAsync(Resource resource, string id, string version, CancellationToken stop)
    {
        resource.Id = id;
        return SendAsync(HttpMethod.Put, $"{resource.TypeName}/{Uri.EscapeDataString(id)}", resource, ("If-Match", EntityTag.ForMatch(version)), needsBody: false, stop);
    }

    private static List<Resource> MatchesIn(Bundle bundle, string type, string system, string value) =>
        [.. bundle.Entry
            .Select(entry => entry.Resource)
            .OfType<Resource>()
            .Where(resource => resource.TypeName == type && resource.Id is { Length: > 0 } && HasIdentifier(resource, system, value))];

    private static bool HasIdentifier(Resource resource, string system, string value) =>
        resource is not IIdentifiable<List<Identifier>> { Identifier: var identifiers }
        || identifiers.Any(identifier => identifier.System == system && string.Equals(identifier.Value, value, StringComparison.OrdinalIgnoreCase));

    private async Task<FhirAnswer> SendAsync(
        HttpMethod method, string address, Resource? body, (string Name, string Value)? condition, bool needsBody, CancellationToken stop)
    {
        if (!gate.TryAllow(address, out var allowed, out var problem))
        {
            return Failed(FhirReply.Outside, problem.Code);
        }

        using var request = new HttpRequestMessage(method, allowed);
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue(Json));
        if (body is not null)
        {
            request.Content = new StringContent(FhirJsonSerializer.Default.SerializeToString(body), Encoding.UTF8, Json);
            request.Headers.TryAddWithoutValidation("Prefer", "return=minimal");
        }

        if (condition is { } header)
        {
            request.Headers.TryAddWithoutValidation(header.Name, header.Value);
            request.Options.Set(MayRepeat, true);
        }

        return await SendAsync(request, needsBody, stop);
    }

    private async Task<FhirAnswer> SendAsync(HttpRequestMessage request, bool needsBody, CancellationToken stop)
    {
        try
        {
            using var response = await http.SendAsync(request, HttpCompletionOption.ResponseContentRead, stop);
            var body = await response.Content.ReadAsByteArrayAsync(stop);
            return _reader.Read(response, body, needsBody);
        }
        catch (BrokenCircuitException open)
        {
            return Failed(FhirReply.TryLater, Codes.CircuitOpen) with { RetryAfter = open.RetryAfter };
        }
        catch (AddressRefusedException)
        {
            return Failed(FhirReply.Outside, Codes.AddressOutside);
        }
        catch (HttpRequestException cut) when (cut.HttpRequestError is HttpRequestError.ResponseEnded or HttpRequestError.ConfigurationLimitExceeded)
        {
            return Failed(FhirReply.Unclear, Codes.AnswerTruncated);
        }
        catch (Exception lost) when (lost is HttpRequestException or TimeoutRejectedException or IOException or OperationCanceledException && !stop.IsCancellationRequested)
        {
            return Failed(FhirReply.Unclear, Codes.NoAnswer);
        }
    }

    private static FhirAnswer Failed(FhirReply reply, DiagnosticCode code) => new(reply, 0, null, null, null, null, null, code);
}
