using System.Buffers;
using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;

namespace AirwayGuard.Host.DemoWard;

/// <summary>
/// Sends resources to a FHIR server as transactions of updates under our own ids, in their order. The plan's last resource is its
/// marker: while the server has it, nothing is sent again.
/// </summary>
/// <param name="client">Brings time-outs and credentials; its own base address is not used.</param>
/// <param name="address">The server's FHIR base address.</param>
internal sealed class WardLoader(HttpClient client, Uri address)
{
    /// <summary>Most entries of one transaction.</summary>
    public const int EntriesAtOnce = 200;

    private readonly string _base = address.AbsoluteUri.TrimEnd('/');

    /// <summary>Loads the ward unless its marker is there. Servers must let clients choose ids.</summary>
    /// <param name="progress">Told after each transaction how many of how many resources are there.</param>
    public async Task<WardLoading> LoadAsync(IReadOnlyList<WardResource> plan, Action<int, int> progress, CancellationToken stop)
    {
        HttpStatusCode marker;
        try
        {
            using var answer = await client.GetAsync(new Uri($"{_base}/{WardPlan.MarkerType}/{WardPlan.MarkerId}"), stop);
            marker = answer.StatusCode;
        }
        catch (Exception trouble) when (IsSilence(trouble, stop))
        {
            return new WardLoading(WardOutcome.NoAnswer, 0);
        }

        return marker switch
        {
            HttpStatusCode.OK => new WardLoading(WardOutcome.AlreadyThere, 0),
            HttpStatusCode.NotFound or HttpStatusCode.Gone => await SendAsync(plan, progress, stop),
            _ => new WardLoading(WardOutcome.Refused, 0, marker),
        };
    }

    /// <summary>Sends resources whether or not the ward is there: corrections, after it was loaded.</summary>
    public async Task<WardLoading> SendAsync(IReadOnlyList<WardResource> resources, Action<int, int> progress, CancellationToken stop)
    {
        var sent = 0;
        foreach (var part in resources.Chunk(EntriesAtOnce))
        {
            try
            {
                using var body = new ReadOnlyMemoryContent(Transaction(part));
                body.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");
                using var answer = await client.PostAsync(new Uri(_base), body, stop);
                if (!answer.IsSuccessStatusCode)
                {
                    return new WardLoading(WardOutcome.Refused, sent, answer.StatusCode);
                }
            }
            catch (Exception trouble) when (IsSilence(trouble, stop))
            {
                return new WardLoading(WardOutcome.NoAnswer, sent);
            }

            sent += part.Length;
            progress(sent, resources.Count);
        }

        return new WardLoading(WardOutcome.Loaded, sent);
    }

    // A client's own time-out comes as a cancellation that nobody asked for.
    private static bool IsSilence(Exception trouble, CancellationToken stop) =>
        trouble is HttpRequestException || (trouble is OperationCanceledException && !stop.IsCancellationRequested);

    private static ReadOnlyMemory<byte> Transaction(WardResource[] part)
    {
        var bytes = new ArrayBufferWriter<byte>(part.Length * 800);
        using var json = new Utf8JsonWriter(bytes);
        json.WriteStartObject();
        json.WriteString("resourceType", "Bundle");
        json.WriteString("type", "transaction");
        json.WriteStartArray("entry");
        foreach (var resource in part)
        {
            json.WriteStartObject();
            json.WritePropertyName("resource");
            json.WriteRawValue(resource.Json.Span);
            json.WriteStartObject("request");
            json.WriteString("method", "PUT");
            json.WriteString("url", $"{resource.Type}/{resource.Id}");
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.Flush();
        return bytes.WrittenMemory;
    }
}
