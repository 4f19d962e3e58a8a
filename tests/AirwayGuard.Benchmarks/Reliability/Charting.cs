using System.Globalization;
using System.Net.Http.Headers;
using System.Text;

namespace AirwayGuard.Benchmarks.Reliability;

/// <summary>Charts at the server by plain requests, several at a time. Patients and rows are invented.</summary>
internal sealed class Charting(Uri server) : IDisposable
{
    private const string System = "https://airwayguard.example.org/fhir/CodeSystem/airway-care";

    private readonly HttpClient _http = new() { DefaultRequestHeaders = { { "Prefer", "return=minimal" } } };

    public HttpClient Http => _http;

    /// <summary>An adult.</summary>
    public Task PatientAsync(string id) => SendAsync(HttpMethod.Put, "Patient/" + id, $$"""{"resourceType":"Patient","id":"{{id}}","birthDate":"1961-05-04"}""");

    /// <summary>One plain create.</summary>
    public Task RowAsync(string json) => SendAsync(HttpMethod.Post, "Observation", json);

    /// <summary>Creates the rows, so many requests under way at once.</summary>
    public Task RowsAsync(IEnumerable<string> rows, int atOnce) =>
        Parallel.ForEachAsync(rows, new ParallelOptions { MaxDegreeOfParallelism = atOnce }, async (row, _) => await RowAsync(row));

    /// <summary>A pass longer than any limit: one finding each.</summary>
    public static string LongPass(string patient, DateTimeOffset at) => Row(patient, "pass-duration", 25, "s", "s", at);

    /// <summary>A reading above any ceiling, without a word of how it was taken.</summary>
    public static string HighVacuum(string patient, DateTimeOffset at) => Row(patient, "vacuum-pressure", 250, "mmHg", "mm[Hg]", at);

    /// <summary>A saturation that breaks nothing.</summary>
    public static string Saturation(string patient, DateTimeOffset at) => Row(patient, "spo2", 97, "%", "%", at);

    public void Dispose() => _http.Dispose();

    private static string Row(string patient, string code, int value, string unit, string ucum, DateTimeOffset at) => string.Create(
        CultureInfo.InvariantCulture,
        $$$"""{"resourceType":"Observation","status":"final","code":{"coding":[{"system":"{{{System}}}","code":"{{{code}}}"}]},"subject":{"reference":"Patient/{{{patient}}}"},"effectiveDateTime":"{{{at.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss.fff'Z'}}}","valueQuantity":{"value":{{{value}}},"unit":"{{{unit}}}","system":"http://unitsofmeasure.org","code":"{{{ucum}}}"}}""");

    private async Task SendAsync(HttpMethod method, string path, string json)
    {
        using var request = new HttpRequestMessage(method, new Uri($"{server}/{path}"))
        {
            Content = new ByteArrayContent(Encoding.UTF8.GetBytes(json)) { Headers = { ContentType = new MediaTypeHeaderValue("application/fhir+json") } },
        };
        using var answer = await _http.SendAsync(request);
        answer.EnsureSuccessStatusCode();
    }
}
