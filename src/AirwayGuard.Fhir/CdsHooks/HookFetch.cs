using System.Net.Http.Headers;
using AirwayGuard.Fhir.Client;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>
/// Reads from the configured FHIR server by the caller's leave what did not come with a question. The token goes to that server and nowhere
/// else: addresses pass the same gate as all others, and no redirect is followed.
/// </summary>
/// <param name="handler">The wire; it must follow no redirects.</param>
public sealed class HookFetch(HttpMessageHandler handler, FhirGate gate) : IDisposable
{
    /// <summary>Pages of one answer that are read.</summary>
    public const int MostPages = 5;

    /// <summary>Bytes of one page.</summary>
    private const int LargestPage = 5_000_000;

    /// <summary>For all that one question lacks: an order entry does not wait longer.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(4);

    private readonly HttpClient _http = new(handler, disposeHandler: false) { Timeout = Patience, MaxResponseContentBufferSize = LargestPage };

    /// <summary>Whether an address is the configured server's base, or a listed alias of it.</summary>
    public bool IsOurs(string fhirServer) =>
        gate.TryAllow(fhirServer.TrimEnd('/') + "/", out var allowed, out _) && allowed == gate.BaseAddress;

    /// <summary>Whether an absolute address lies on the configured server, by any of its names.</summary>
    public bool IsOnOurs(string address) => gate.TryAllow(address, out _, out _);

    /// <returns>Failed where it could not be read, or not to its end.</returns>
    public async ValueTask<PrefetchPart> ReadAsync(string address, FhirAccess access, bool allPages, CancellationToken stop)
    {
        var (whole, next) = (new List<HookResource>(), (string?)address);
        for (var page = 0; next is not null && (page == 0 || allPages); page++)
        {
            if (page == MostPages || await PageAsync(next, access, stop) is not { State: PrefetchState.Given } part)
            {
                return PrefetchPart.Failed;
            }

            whole.AddRange(part.Resources);
            next = part.NextPage;
        }

        return new PrefetchPart(PrefetchState.Given, [.. whole], next);
    }

    public void Dispose() => _http.Dispose();

    private async ValueTask<PrefetchPart> PageAsync(string address, FhirAccess access, CancellationToken stop)
    {
        if (!gate.TryAllow(address, out var allowed, out _))
        {
            return PrefetchPart.Failed;
        }

        using var request = new HttpRequestMessage(HttpMethod.Get, allowed);
        request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", access.Token);
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("application/fhir+json"));
        try
        {
            using var response = await _http.SendAsync(request, HttpCompletionOption.ResponseContentRead, stop);
            return response.IsSuccessStatusCode ? PrefetchReader.Read(await response.Content.ReadAsByteArrayAsync(stop)) : PrefetchPart.Failed;
        }
        catch (Exception lost) when (lost is HttpRequestException or IOException || (lost is OperationCanceledException && !stop.IsCancellationRequested))
        {
            // That it could not be had is told to the caller, by the key.
            return PrefetchPart.Failed;
        }
    }
}
