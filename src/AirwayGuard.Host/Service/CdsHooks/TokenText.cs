using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Unicode;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>Reads a JWT in compact form (RFC 7515 §7.1, RFC 7519) without believing it. Each member once, as RFC 8725 §2.4 asks of a careful reader.</summary>
internal static class TokenText
{
    /// <summary>Characters that a token may have.</summary>
    public const int Longest = 8192;

    /// <summary>Characters that a <c>jti</c> may have.</summary>
    private const int LongestId = 256;

    private const string Scheme = "Bearer ";

    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false, MaxDepth = 16 };

    /// <param name="authorization">The Authorization header, or null.</param>
    public static bool TryRead(string? authorization, out SentToken token, out HookRefusal refusal)
    {
        token = null!;
        refusal = null!;
        if (authorization is null || !authorization.StartsWith(Scheme, StringComparison.OrdinalIgnoreCase) || authorization.AsSpan(Scheme.Length).Trim(' ').IsEmpty)
        {
            refusal = Refused(Codes.TokenMissing, "Authorization", "The request carries no bearer token.");
            return false;
        }

        var compact = authorization[Scheme.Length..].Trim(' ');
        if (compact.Length > Longest)
        {
            refusal = Refused(Codes.TokenUnreadable, "Authorization", "The token is longer than 8 KB.");
            return false;
        }

        try
        {
            return TryParts(compact, out token, out refusal);
        }
        catch (Exception broken) when (broken is JsonException or InvalidOperationException)
        {
            // A text with half a surrogate pair is found out only when it is read.
            refusal = Refused(Codes.TokenUnreadable, "Authorization", "Header and claims are to be JSON objects, each member once.");
            return false;
        }
    }

    public static HookRefusal Refused(DiagnosticCode code, string where, string why) => new(StatusCodes.Status401Unauthorized, code, where, why);

    private static bool TryParts(string compact, out SentToken token, out HookRefusal refusal)
    {
        token = null!;
        var parts = compact.Split('.');
        if (parts.Length != 3 || JsonText.OctetsOf(parts[0]) is not { } header || JsonText.OctetsOf(parts[1]) is not { } claims
            || JsonText.OctetsOf(parts[2]) is not { } signature || !Utf8.IsValid(header) || !Utf8.IsValid(claims))
        {
            refusal = Refused(Codes.TokenUnreadable, "Authorization", "The token is not three parts in base64url that a dot parts.");
            return false;
        }

        using var head = JsonDocument.Parse(header, Strict);
        using var body = JsonDocument.Parse(claims, Strict);
        if (head.RootElement.ValueKind != JsonValueKind.Object || body.RootElement.ValueKind != JsonValueKind.Object)
        {
            refusal = Refused(Codes.TokenUnreadable, "Authorization", "Header and claims are to be JSON objects, each member once.");
            return false;
        }

        if (FaultOf(head.RootElement) is { } fault || (fault = FaultIn(body.RootElement)) is not null)
        {
            refusal = fault;
            return false;
        }

        refusal = null!;
        token = Read(compact, head.RootElement, body.RootElement, signature.Length);
        return true;
    }

    private static HookRefusal? FaultOf(JsonElement header)
    {
        // The algorithm comes first: of a token that is refused for it nothing else is looked at.
        if (JsonText.Of(header, "alg") is not ("ES384" or "RS384"))
        {
            return Refused(Codes.TokenAlgorithm, "Authorization: alg", "The token is signed otherwise.");
        }

        if (header.TryGetProperty("crit", out _))
        {
            return Refused(Codes.TokenUnreadable, "Authorization: crit", "The token asks for extensions that are not understood here.");
        }

        if (header.TryGetProperty("typ", out _) && !string.Equals(JsonText.Of(header, "typ"), "JWT", StringComparison.OrdinalIgnoreCase))
        {
            return Refused(Codes.TokenUnreadable, "Authorization: typ", "The token is of another type than JWT.");
        }

        if (header.TryGetProperty("jku", out _) && JsonText.Of(header, "jku") is null)
        {
            return Refused(Codes.TokenUnreadable, "Authorization: jku", "The address of the key set is no text.");
        }

        return JsonText.Of(header, "kid") is { Length: > 0 } ? null : Refused(Codes.TokenUnreadable, "Authorization: kid", "The token does not name its key.");
    }

    private static HookRefusal? FaultIn(JsonElement claims)
    {
        var missing = JsonText.Of(claims, "iss") is not { Length: > 0 } ? "iss"
            : AudiencesOf(claims).IsDefault ? "aud"
            : JsonText.TimeOf(claims, "exp") is null ? "exp"
            : JsonText.TimeOf(claims, "iat") is null ? "iat"
            : claims.TryGetProperty("nbf", out _) && JsonText.TimeOf(claims, "nbf") is null ? "nbf"
            : JsonText.Of(claims, "jti") is not { Length: >= 1 and <= LongestId } ? "jti"
            : null;
        return missing is null ? null : Refused(Codes.TokenUnreadable, $"Authorization: {missing}", "The claim is missing or not of its kind.");
    }

    private static SentToken Read(string compact, JsonElement header, JsonElement claims, int signatureLength) => new(
        compact, JsonText.Of(header, "alg")!, JsonText.Of(header, "kid")!, JsonText.Of(header, "jku"), signatureLength,
        JsonText.Of(claims, "iss")!, AudiencesOf(claims), JsonText.Of(claims, "jti")!,
        JsonText.TimeOf(claims, "exp")!.Value, JsonText.TimeOf(claims, "iat")!.Value, JsonText.TimeOf(claims, "nbf"));

    /// <summary>RFC 7519 §4.1.3: one text or an array of texts. Default where it is neither.</summary>
    private static ImmutableArray<string> AudiencesOf(JsonElement claims)
    {
        if (!claims.TryGetProperty("aud", out var named))
        {
            return default;
        }

        return named.ValueKind switch
        {
            JsonValueKind.String => [named.GetString()!],
            JsonValueKind.Array when named.EnumerateArray().All(one => one.ValueKind == JsonValueKind.String) => [.. named.EnumerateArray().Select(one => one.GetString()!)],
            _ => default,
        };
    }
}
