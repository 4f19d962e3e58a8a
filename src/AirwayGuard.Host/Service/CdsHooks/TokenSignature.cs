using System.Collections.Immutable;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>Whether a token was signed with one of the keys. Claims are judged by <see cref="TokenCheck"/>, more strictly than here.</summary>
internal static class TokenSignature
{
    /// <summary>RFC 7518 §3.4: R and S of 48 octets each, one after the other.</summary>
    private const int Es384Octets = 96;

    private static readonly JsonWebTokenHandler Handler = new() { MaximumTokenSizeInBytes = TokenText.Longest };

    public static async ValueTask<bool> HoldsAsync(SentToken token, ImmutableArray<HookKey> keys)
    {
        if (token.Algorithm == "ES384" && token.SignatureLength != Es384Octets)
        {
            return false;
        }

        foreach (var key in keys)
        {
            if ((await Handler.ValidateTokenAsync(token.Compact, Asking(key, token.Algorithm))).IsValid)
            {
                return true;
            }
        }

        return false;
    }

    private static TokenValidationParameters Asking(HookKey key, string algorithm) => new()
    {
        ValidAlgorithms = [algorithm],
        IssuerSigningKey = key.Public,
        TryAllIssuerSigningKeys = true,
        RequireSignedTokens = true,
        ValidateIssuer = false,
        ValidateAudience = false,
        ValidateLifetime = false,
        // Keys come and go with their set; none of them is to stay in a cache of the process.
        CryptoProviderFactory = new CryptoProviderFactory { CacheSignatureProviders = false },
    };
}
