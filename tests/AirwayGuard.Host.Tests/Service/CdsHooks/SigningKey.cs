using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text.Json.Nodes;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

/// <summary>A key made for the tests: signs, and shows its public half as a JWK.</summary>
internal sealed class SigningKey
{
    private readonly AsymmetricAlgorithm _key;
    private readonly HashAlgorithmName _hash;

    private SigningKey(string kid, string algorithm, AsymmetricAlgorithm key, HashAlgorithmName hash) => (Kid, Algorithm, _key, _hash) = (kid, algorithm, key, hash);

    public static SigningKey First { get; } = Es384("first");

    public static SigningKey Second { get; } = Es384("second");

    public static SigningKey Rsa { get; } = Rs384("rsa", 2048);

    public string Kid { get; }

    public string Algorithm { get; }

    public static SigningKey Es384(string kid) => new(kid, "ES384", ECDsa.Create(ECCurve.NamedCurves.nistP384), HashAlgorithmName.SHA384);

    public static SigningKey OfP256(string kid, HashAlgorithmName hash) => new(kid, "ES256", ECDsa.Create(ECCurve.NamedCurves.nistP256), hash);

    public static SigningKey Rs384(string kid, int bits) => new(kid, "RS384", RSA.Create(bits), HashAlgorithmName.SHA384);

    public byte[] Sign(byte[] data) => _key is ECDsa curve ? curve.SignData(data, _hash) : ((RSA)_key).SignData(data, _hash, RSASignaturePadding.Pkcs1);

    /// <summary>The signature in the form that X.509 has, which JOSE does not take (RFC 7518 §3.4).</summary>
    public byte[] SignDer(byte[] data) => ((ECDsa)_key).SignData(data, _hash, DSASignatureFormat.Rfc3279DerSequence);

    /// <summary>What somebody who has the public key only could try as a secret.</summary>
    public byte[] PublicBytes() => _key.ExportSubjectPublicKeyInfo();

    public JsonObject Jwk(params (string Name, JsonNode? Value)[] besides)
    {
        var jwk = _key is ECDsa curve ? JwkOf(curve.ExportParameters(includePrivateParameters: false)) : JwkOf(((RSA)_key).ExportParameters(includePrivateParameters: false));
        jwk["kid"] = Kid;
        foreach (var (name, value) in besides)
        {
            jwk[name] = value;
        }

        return jwk;
    }

    public static string Set(params JsonObject[] keys) => new JsonObject { ["keys"] = new JsonArray([.. keys]) }.ToJsonString();

    private static JsonObject JwkOf(ECParameters key) => new()
    {
        ["kty"] = "EC",
        ["crv"] = key.Q.X!.Length == 48 ? "P-384" : "P-256",
        ["x"] = Base64Url.EncodeToString(key.Q.X),
        ["y"] = Base64Url.EncodeToString(key.Q.Y),
    };

    private static JsonObject JwkOf(RSAParameters key) => new() { ["kty"] = "RSA", ["n"] = Base64Url.EncodeToString(key.Modulus), ["e"] = Base64Url.EncodeToString(key.Exponent) };
}
