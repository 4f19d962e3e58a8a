using System.Collections.Immutable;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>What a token says of itself. Nothing of it is proved yet.</summary>
/// <param name="Compact">As sent.</param>
/// <param name="KeySet">The <c>jku</c>; null for none.</param>
/// <param name="SignatureLength">Octets.</param>
internal sealed record SentToken(
    string Compact, string Algorithm, string Kid, string? KeySet, int SignatureLength,
    string Issuer, ImmutableArray<string> Audiences, string Id, DateTimeOffset Expires, DateTimeOffset Issued, DateTimeOffset? NotBefore)
{
    /// <summary>Says nothing of what was sent.</summary>
    public override string ToString() => nameof(SentToken);
}
