using System.Buffers;
using System.Buffers.Text;
using System.Text.Json;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>Members of tokens and key sets, each null where it is not there or of another kind.</summary>
internal static class JsonText
{
    /// <summary>9999-12-31T23:59:59Z, the last second that a time here can have.</summary>
    private const decimal LastSecond = 253_402_300_799m;

    private static readonly SearchValues<char> UrlSafe = SearchValues.Create("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_");

    /// <exception cref="InvalidOperationException">The text holds half a surrogate pair.</exception>
    public static string? Of(JsonElement parent, string name) =>
        parent.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    /// <summary>A NumericDate (RFC 7519 §2): seconds since 1970, whole or not.</summary>
    public static DateTimeOffset? TimeOf(JsonElement parent, string name) =>
        parent.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Number && value.TryGetDecimal(out var seconds) && seconds is >= 0 and <= LastSecond
            ? DateTimeOffset.UnixEpoch.AddTicks((long)(seconds * TimeSpan.TicksPerSecond))
            : null;

    /// <returns>Null for what is no base64url as RFC 7515 §2 has it: no padding, no white space.</returns>
    public static byte[]? OctetsOf(ReadOnlySpan<char> text)
    {
        if (text.ContainsAnyExcept(UrlSafe))
        {
            return null;
        }

        var octets = new byte[Base64Url.GetMaxDecodedLength(text.Length)];
        return Base64Url.DecodeFromChars(text, octets, out _, out var written) == OperationStatus.Done ? octets[..written] : null;
    }
}
