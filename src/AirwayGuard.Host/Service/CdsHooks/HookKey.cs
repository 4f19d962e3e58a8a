using Microsoft.IdentityModel.Tokens;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>A public key of a client's set that may verify.</summary>
/// <param name="Kid">Its name in the set.</param>
/// <param name="Algorithm">The only algorithm it may be used with; null leaves it to the token.</param>
/// <param name="Until">It is gone from then on; null for no end.</param>
/// <param name="Public">Public members only.</param>
/// <param name="Bits">Length of the modulus or of the curve's field.</param>
internal sealed record HookKey(string Kid, string? Algorithm, DateTimeOffset? Until, JsonWebKey Public, int Bits)
{
    /// <summary>Shortest modulus that is taken, in bits (RFC 7518 §3.3).</summary>
    private const int ShortestModulus = 2048;

    /// <summary>True where the key is of the kind that the algorithm needs: P-384 for ES384, RSA of 2048 bits or more for RS384.</summary>
    public bool Fits(string algorithm) => algorithm switch
    {
        "ES384" => Public is { Kty: "EC", Crv: "P-384" },
        "RS384" => Public.Kty == "RSA" && Bits >= ShortestModulus,
        _ => false,
    };

    public bool IsThere(string kid, string algorithm, DateTimeOffset now) =>
        string.Equals(Kid, kid, StringComparison.Ordinal) && (Algorithm is null || string.Equals(Algorithm, algorithm, StringComparison.Ordinal)) && !(Until <= now);

    /// <summary>Says nothing of the key.</summary>
    public override string ToString() => $"HookKey({Public.Kty})";
}
