using System.Collections.Immutable;
using System.Numerics;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.IdentityModel.Tokens;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>
/// Reads a JWKS (RFC 7517). A key that cannot be read, is symmetric or is not meant for verifying is left out, as §5 has it; private
/// members are never looked at.
/// </summary>
internal static class KeySetText
{
    /// <summary>Bytes a set may have.</summary>
    public const int LargestBytes = 65_536;

    /// <summary>Longest modulus that is taken, in bits; verifying costs more with each.</summary>
    private const int LongestModulus = 8192;

    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false, MaxDepth = 16 };

    /// <returns>Null for what is no set: too large, no JSON, a member twice, or without <c>keys</c>.</returns>
    public static ImmutableArray<HookKey>? Read(ReadOnlyMemory<byte> text)
    {
        if (text.Length > LargestBytes || !System.Text.Unicode.Utf8.IsValid(text.Span))
        {
            return null;
        }

        try
        {
            using var document = JsonDocument.Parse(text, Strict);
            return document.RootElement.ValueKind == JsonValueKind.Object && document.RootElement.TryGetProperty("keys", out var keys) && keys.ValueKind == JsonValueKind.Array
                ? [.. keys.EnumerateArray().Select(ReadKey).OfType<HookKey>()]
                : null;
        }
        catch (Exception broken) when (broken is JsonException or InvalidOperationException)
        {
            // A text with half a surrogate pair is found out only when it is read.
            return null;
        }
    }

    private static HookKey? ReadKey(JsonElement key)
    {
        if (key.ValueKind != JsonValueKind.Object || JsonText.Of(key, "kid") is not { Length: > 0 } kid || !MayVerify(key) || !TryUntil(key, out var until)
            || !TryOptional(key, "alg", out var algorithm))
        {
            return null;
        }

        var read = JsonText.Of(key, "kty") switch
        {
            "EC" => Curve(key),
            "RSA" => Modulus(key),
            _ => null,
        };
        return read is { } found ? new HookKey(kid, algorithm, until, found.Key, found.Bits) : null;
    }

    private static bool MayVerify(JsonElement key) =>
        TryOptional(key, "use", out var use) && use is null or "sig"
        && (!key.TryGetProperty("key_ops", out var uses)
            || (uses.ValueKind == JsonValueKind.Array && uses.EnumerateArray().Any(one => one.ValueKind == JsonValueKind.String && one.GetString() == "verify")));

    /// <returns>False where the member is there and no text.</returns>
    private static bool TryOptional(JsonElement key, string name, out string? text)
    {
        text = JsonText.Of(key, name);
        return text is not null || !key.TryGetProperty(name, out _);
    }

    private static bool TryUntil(JsonElement key, out DateTimeOffset? until)
    {
        until = JsonText.TimeOf(key, "exp");
        return until is not null || !key.TryGetProperty("exp", out _);
    }

    /// <summary>RFC 7518 §6.2.1: both coordinates in full length, on the curve.</summary>
    private static (JsonWebKey Key, int Bits)? Curve(JsonElement key)
    {
        var (curve, bits) = JsonText.Of(key, "crv") switch
        {
            "P-256" => (ECCurve.NamedCurves.nistP256, 256),
            "P-384" => (ECCurve.NamedCurves.nistP384, 384),
            "P-521" => (ECCurve.NamedCurves.nistP521, 521),
            _ => (default, 0),
        };
        var octets = (bits + 7) / 8;
        if (bits == 0 || Octets(key, "x") is not { } x || Octets(key, "y") is not { } y || x.Length != octets || y.Length != octets)
        {
            return null;
        }

        return Imports(() => ECDsa.Create(new ECParameters { Curve = curve, Q = new ECPoint { X = x, Y = y } }))
            ? (new JsonWebKey { Kty = "EC", Crv = JsonText.Of(key, "crv"), X = JsonText.Of(key, "x"), Y = JsonText.Of(key, "y") }, bits)
            : null;
    }

    /// <summary>RFC 7518 §6.3.1: modulus without leading zeros, and an odd exponent of 3 or more (RFC 8017 §3.1).</summary>
    private static (JsonWebKey Key, int Bits)? Modulus(JsonElement key)
    {
        if (Octets(key, "n") is not { Length: > 0 and <= LongestModulus / 8 } n || n[0] == 0 || Octets(key, "e") is not { Length: > 0 and <= 8 } e
            || (e[^1] & 1) == 0 || e.AsSpan().TrimStart((byte)0) is [1])
        {
            return null;
        }

        return Imports(() => RSA.Create(new RSAParameters { Modulus = n, Exponent = e }))
            ? (new JsonWebKey { Kty = "RSA", N = JsonText.Of(key, "n"), E = JsonText.Of(key, "e") }, (n.Length * 8) - BitOperations.LeadingZeroCount(n[0]) + 24)
            : null;
    }

    private static bool Imports(Func<AsymmetricAlgorithm> import)
    {
        try
        {
            using var imported = import();
            return true;
        }
        catch (CryptographicException)
        {
            // A point off the curve and the like: §5 has such a key left out.
            return false;
        }
    }

    private static byte[]? Octets(JsonElement key, string name) => JsonText.Of(key, name) is { } text ? JsonText.OctetsOf(text) : null;
}
