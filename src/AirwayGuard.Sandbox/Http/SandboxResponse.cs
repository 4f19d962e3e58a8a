using System.Globalization;
using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Documents;

namespace AirwayGuard.Sandbox.Http;

/// <summary>One HTTP answer; the doors only carry it out.</summary>
public sealed class SandboxResponse
{
    private const string FhirJson = "application/fhir+json; charset=utf-8";

    /// <summary>The status code.</summary>
    public required int Status { get; init; }

    /// <summary>Headers, content headers among them.</summary>
    public Dictionary<string, string> Headers { get; } = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>The body; empty for none.</summary>
    public ReadOnlyMemory<byte> Body { get; private init; }

    internal StoredVersion? Version { get; private init; }

    internal static SandboxResponse Empty(int status) => new() { Status = status };

    internal static SandboxResponse Json(int status, ReadOnlyMemory<byte> body) =>
        new() { Status = status, Body = body, Headers = { ["Content-Type"] = FhirJson } };

    internal static SandboxResponse Json(int status, JsonNode body) => Json(status, JsonText.Write(body));

    internal static SandboxResponse Of(SandboxRefusalException refusal, SandboxOptions options)
    {
        var response = Json(refusal.Status, Outcome.Of(refusal, options));
        if (refusal.Allow is not null)
        {
            response.Headers["Allow"] = refusal.Allow;
        }

        return response;
    }

    /// <summary>An answer about a version, with or without its content; R4 http.html#versioning asks for the two headers.</summary>
    internal static SandboxResponse Of(int status, StoredVersion version, ReadOnlyMemory<byte> body, string? location = null)
    {
        var response = new SandboxResponse { Status = status, Version = version, Body = body };
        if (!body.IsEmpty)
        {
            response.Headers["Content-Type"] = FhirJson;
        }

        response.Headers["ETag"] = version.ETag;
        response.Headers["Last-Modified"] = version.LastUpdated.ToString("R", CultureInfo.InvariantCulture);
        if (location is not null)
        {
            response.Headers["Location"] = location;
        }

        return response;
    }

    /// <summary>The same without a body, as HEAD is answered (RFC 9110 §9.3.2).</summary>
    internal SandboxResponse WithoutBody()
    {
        var response = new SandboxResponse { Status = Status, Version = Version };
        foreach (var (name, value) in Headers)
        {
            response.Headers[name] = value;
        }

        return response;
    }

    /// <summary>Status only: the body may be charted content.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Status}");
}
