using System.Collections.Frozen;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>The public keys of the clients, from the file of each or else from its address.</summary>
internal sealed class KeySets : IDisposable
{
    private readonly HttpClient _http;
    private readonly FrozenDictionary<string, FileKeys> _files;
    private readonly FrozenDictionary<string, AddressKeys> _addresses;

    /// <param name="clients">As the settings check has let them through.</param>
    /// <param name="handler">Must not follow redirects; see <see cref="KeySetFetch.Handler"/>. Disposed with this.</param>
    public KeySets(IEnumerable<CdsClient> clients, HttpMessageHandler handler, TimeProvider clock)
    {
        _http = new HttpClient(handler) { Timeout = Timeout.InfiniteTimeSpan };
        var fetch = new KeySetFetch(_http, clock);
        var all = clients.ToList();
        _files = all.Where(HasFile).Select(client => client.KeyFile!).Distinct(StringComparer.Ordinal)
            .ToFrozenDictionary(file => file, file => new FileKeys(file, clock), StringComparer.Ordinal);
        _addresses = all.Where(client => !HasFile(client)).Select(client => client.KeySet!).DistinctBy(address => address.OriginalString, StringComparer.Ordinal)
            .ToFrozenDictionary(address => address.OriginalString, address => new AddressKeys(address, fetch, clock), StringComparer.Ordinal);
    }

    /// <param name="client">One of those given at the start.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public ValueTask<KeyAnswer> FindAsync(CdsClient client, string kid, string algorithm, CancellationToken cancellation) => HasFile(client)
        ? ValueTask.FromResult(_files[client.KeyFile!].Find(kid, algorithm))
        : _addresses[client.KeySet!.OriginalString].FindAsync(kid, algorithm, cancellation);

    public void Dispose() => _http.Dispose();

    private static bool HasFile(CdsClient client) => !string.IsNullOrWhiteSpace(client.KeyFile);
}
