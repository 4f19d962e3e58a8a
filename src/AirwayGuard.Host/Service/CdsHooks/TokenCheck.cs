using System.Collections.Frozen;
using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>
/// Who calls, by the token that CDS Hooks has on every call: signed with ES384 or RS384 by a key of a configured issuer, for this
/// address, now, for an hour at most, and once. An issuer is known before its keys are looked for, and the token is marked as used
/// only when everything else holds.
/// </summary>
/// <param name="clients">As the settings check has let them through.</param>
/// <param name="skew">By how much a caller's clock may differ, either way.</param>
/// <param name="use">Marks a token as used; false where it was used before.</param>
internal sealed class TokenCheck(
    IEnumerable<CdsClient> clients, TimeSpan skew, KeySets keys, Func<UsedToken, CancellationToken, ValueTask<bool>> use, TimeProvider clock)
{
    private static readonly TimeSpan Longest = TimeSpan.FromHours(1);

    private readonly FrozenDictionary<string, CdsClient> _clients = clients.ToFrozenDictionary(client => client.Issuer!, StringComparer.Ordinal);

    /// <param name="authorization">The Authorization header, or null. Several of them joined are no token.</param>
    /// <param name="address">The address called, as <see cref="HookAddress.Of"/> gives it.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public async ValueTask<HookCaller> CheckAsync(string? authorization, string address, CancellationToken cancellation)
    {
        if (!TokenText.TryRead(authorization, out var token, out var unread))
        {
            return unread;
        }

        if (!_clients.TryGetValue(token.Issuer, out var client))
        {
            return Refused(Codes.TokenIssuer, "iss", "Nobody of that name may ask.");
        }

        if (token.KeySet is { } named && !string.Equals(named, client.KeySet?.OriginalString, StringComparison.Ordinal))
        {
            return Refused(Codes.TokenKeySet, "jku", "Keys are taken from the configured place only.");
        }

        var refusal = await SignatureAsync(token, client, cancellation) ?? FaultOf(token, address);
        if (refusal is not null)
        {
            return refusal;
        }

        return await use(new UsedToken(token.Issuer, token.Id, Later(token.Expires, skew)), cancellation)
            ? new HookCaller(token.Issuer, null)
            : Refused(Codes.TokenUsed, "jti", "A token lets one call in.");
    }

    private async ValueTask<HookRefusal?> SignatureAsync(SentToken token, CdsClient client, CancellationToken cancellation)
    {
        var (named, isRead) = await keys.FindAsync(client, token.Kid, token.Algorithm, cancellation);
        if (!isRead)
        {
            return Refused(Codes.KeySetUnread, "kid", "There is no key to check the token with.");
        }

        if (named.IsEmpty)
        {
            return Refused(Codes.TokenKeyUnknown, "kid", "No key of that name may verify with this algorithm.");
        }

        ImmutableArray<HookKey> fitting = [.. named.Where(key => key.Fits(token.Algorithm))];
        if (fitting.IsEmpty)
        {
            return Refused(Codes.TokenAlgorithm, "alg", "The key is not of the kind that it needs: P-384 for ES384, RSA of 2048 bits or more for RS384.");
        }

        return await TokenSignature.HoldsAsync(token, fitting) ? null : Refused(Codes.TokenSignature, "signature", "It was not made with that key over what was sent.");
    }

    private HookRefusal? FaultOf(SentToken token, string address)
    {
        if (!token.Audiences.Contains(address, StringComparer.Ordinal))
        {
            return Refused(Codes.TokenAudience, "aud", "The address that is called is not among its audiences.");
        }

        var now = clock.GetUtcNow();
        return Later(token.Expires, skew) <= now ? Refused(Codes.TokenTime, "exp", "It is past its time.")
            : token.Issued > Later(now, skew) ? Refused(Codes.TokenTime, "iat", "It was issued later than now.")
            : token.NotBefore > Later(now, skew) ? Refused(Codes.TokenTime, "nbf", "Its time has not come.")
            : token.Expires - token.Issued > Longest + skew || token.Expires - now > Longest + skew ? Refused(Codes.TokenTime, "exp", "It would last longer than an hour.")
            : null;
    }

    // A time near the end of the calendar has no later one.
    private static DateTimeOffset Later(DateTimeOffset time, TimeSpan by) => time > DateTimeOffset.MaxValue - by ? DateTimeOffset.MaxValue : time + by;

    private static HookRefusal Refused(DiagnosticCode code, string member, string why) => TokenText.Refused(code, $"Authorization: {member}", why);
}
