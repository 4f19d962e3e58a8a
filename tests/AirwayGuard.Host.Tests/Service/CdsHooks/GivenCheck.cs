using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Service.CdsHooks;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>A check with one client, whose key set a fake server gives.</summary>
internal sealed class GivenCheck : IDisposable
{
    public const string Issuer = "https://ehr.example.org", Address = "https://ag.hosp.example.org/cds-services/suction-order-sign", KeySet = "https://ehr.example.org/jwks.json";

    public static readonly DateTimeOffset Now = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    private readonly HashSet<(string, string)> _used = [];
    private readonly KeySets _keys;
    private readonly TokenCheck _check;

    public GivenCheck(int skewSeconds = 60, CdsClient? client = null)
    {
        IList<CdsClient> clients = [client ?? new CdsClient { Issuer = Issuer, KeySet = new Uri(KeySet) }];
        Server = new KeyServer { Set = SigningKey.Set(SigningKey.First.Jwk(), SigningKey.Rsa.Jwk()) };
        _keys = new KeySets(clients, Server, Clock);
        _check = new TokenCheck(clients, TimeSpan.FromSeconds(skewSeconds), _keys, UseAsync, Clock);
    }

    public FakeTimeProvider Clock { get; } = new(Now);

    public KeyServer Server { get; }

    /// <summary>Tokens that were marked as used, in order.</summary>
    public List<UsedToken> Used { get; } = [];

    public ValueTask<HookCaller> AskAsync(string? authorization, string address = Address) => _check.CheckAsync(authorization, address, TestContext.Current.CancellationToken);

    /// <summary>The code of the refusal; null where the caller is let in.</summary>
    public async Task<string?> CodeOf(string? authorization)
    {
        var caller = await AskAsync(authorization);
        Assert.True(caller.Issuer is null != caller.Refusal is null, "Either a caller or a refusal.");
        Assert.True(caller.Refusal is null or { Status: 401 }, "A refusal is a 401.");
        return caller.Refusal?.Code.Id;
    }

    public Task<string?> CodeOf(Token token) => CodeOf(token.Sent());

    public void Dispose() => _keys.Dispose();

    private ValueTask<bool> UseAsync(UsedToken token, CancellationToken cancellation)
    {
        Used.Add(token);
        return ValueTask.FromResult(_used.Add((token.Issuer, token.Id)));
    }
}
