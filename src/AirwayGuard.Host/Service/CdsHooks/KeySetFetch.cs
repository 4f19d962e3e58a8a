using System.Collections.Immutable;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>One question for a key set over the network: no redirects, 5 s in all, at most 64 KB.</summary>
/// <param name="http">Must not follow redirects, as <see cref="Handler"/> does not.</param>
internal sealed class KeySetFetch(HttpClient http, TimeProvider clock)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    /// <summary>What the service fetches with: a redirect would lead to an address that nobody configured.</summary>
    public static HttpMessageHandler Handler() => new SocketsHttpHandler
    {
        AllowAutoRedirect = false,
        UseCookies = false,
        PooledConnectionLifetime = TimeSpan.FromMinutes(5),
    };

    /// <returns>The set and the max-age that its server states; null where it could not be had.</returns>
    public async Task<(ImmutableArray<HookKey> Keys, TimeSpan? MaxAge)?> FetchAsync(Uri address)
    {
        using var patience = new CancellationTokenSource(Patience, clock);
        try
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, address);
            request.Headers.Accept.ParseAdd("application/jwk-set+json, application/json");
            using var response = await http.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, patience.Token);
            if (response.StatusCode != System.Net.HttpStatusCode.OK || response.Content.Headers.ContentLength > KeySetText.LargestBytes)
            {
                return null;
            }

            var body = await ReadAsync(await response.Content.ReadAsStreamAsync(patience.Token), patience.Token);
            return KeySetText.Read(body) is { } keys ? (keys, response.Headers.CacheControl?.MaxAge) : null;
        }
        catch (Exception refused) when (refused is HttpRequestException or IOException or OperationCanceledException)
        {
            // Its text may quote the address or the answer; that the set could not be read is what the caller is told.
            return null;
        }
    }

    /// <summary>Reads one byte more than a set may have, which tells that it is too large.</summary>
    private static async Task<ReadOnlyMemory<byte>> ReadAsync(Stream body, CancellationToken cancellation)
    {
        var bytes = new byte[KeySetText.LargestBytes + 1];
        var length = await body.ReadAtLeastAsync(bytes, bytes.Length, throwOnEndOfStream: false, cancellation);
        return bytes.AsMemory(0, length);
    }
}
