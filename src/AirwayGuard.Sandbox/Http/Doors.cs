using AirwayGuard.Sandbox.Search;

namespace AirwayGuard.Sandbox.Http;

/// <summary>What is let in. The server has no sign-in, so a page in a browser on this machine must not be able to use it.</summary>
internal sealed class Doors(SandboxOptions options)
{
    /// <summary>Largest body in bytes for a request.</summary>
    public int BodyLimit(string method, string path) =>
        method == "POST" && path.Trim('/').Length == 0 ? options.MaxBundleBytes : options.MaxBodyBytes;

    /// <summary>Refuses a request that may not come in.</summary>
    public void Check(SandboxRequest request)
    {
        CheckHost(request);
        CheckOrigin(request);
        if (request.Body.Length > BodyLimit(request.Method, request.Path))
        {
            throw TooLarge();
        }

        if (request.Header("Content-Encoding") is { Length: > 0 } encoding && !encoding.Equals("identity", StringComparison.OrdinalIgnoreCase))
        {
            throw new SandboxRefusalException(SandboxFault.ContentTypeRefused, 415, "not-supported", "Compressed bodies are not taken.");
        }

        CheckContentType(request);
        CheckAccept(request);
    }

    /// <summary>RFC 9110 §15.5.14.</summary>
    public static SandboxRefusalException TooLarge() => new(SandboxFault.TooLarge, 413, "too-long", "The body is larger than this server takes.");

    // A foreign name that resolves to this machine (DNS rebinding) shows in the Host header. RFC 9110 §7.4: 421.
    private void CheckHost(SandboxRequest request)
    {
        if (!Uri.TryCreate(request.BaseAddress, UriKind.Absolute, out var address) || !options.AllowedHosts.Contains(address.Host, StringComparer.OrdinalIgnoreCase))
        {
            throw new SandboxRefusalException(SandboxFault.HostForeign, 421, "security", "The Host header names another server.");
        }
    }

    private static void CheckOrigin(SandboxRequest request)
    {
        if (request.Header("Origin") is not { Length: > 0 } origin)
        {
            return;
        }

        var own = new Uri(request.BaseAddress).GetLeftPart(UriPartial.Authority);
        if (!string.Equals(origin.TrimEnd('/'), own, StringComparison.OrdinalIgnoreCase))
        {
            throw new SandboxRefusalException(SandboxFault.OriginForeign, 403, "security", "Requests from pages of another origin are not taken.");
        }
    }

    // A form's content types need no CORS preflight; FHIR's do. Only a search may be posted as a form (R4 http.html#search).
    private static void CheckContentType(SandboxRequest request)
    {
        // What no address serves is refused for its method, whatever it carries.
        if (request.Method is not ("POST" or "PUT" or "DELETE") || (request.Method == "DELETE" && request.Body.IsEmpty))
        {
            return;
        }

        var parts = (request.Header("Content-Type") ?? "").Split(';', StringSplitOptions.TrimEntries);
        var search = request.Method == "POST" && request.Path.EndsWith("/_search", StringComparison.Ordinal);
        var known = search
            ? parts[0].Equals("application/x-www-form-urlencoded", StringComparison.OrdinalIgnoreCase) || (parts[0].Length == 0 && request.Body.IsEmpty)
            : IsFhirJson(parts[0]);
        if (!known || !parts.Skip(1).All(IsKnownParameter))
        {
            throw new SandboxRefusalException(SandboxFault.ContentTypeRefused, 415, "not-supported", search
                ? "A search by POST has another content type than a form's."
                : "The content type is not JSON in UTF-8 of FHIR version 4.0.");
        }
    }

    private static bool IsFhirJson(string type) =>
        type.Equals("application/fhir+json", StringComparison.OrdinalIgnoreCase) || type.Equals("application/json", StringComparison.OrdinalIgnoreCase);

    private static bool IsKnownParameter(string parameter)
    {
        var parts = parameter.Split('=', 2, StringSplitOptions.TrimEntries);
        var value = parts.Length == 2 ? parts[1].Trim('"') : "";
        return parts[0].ToUpperInvariant() switch
        {
            "CHARSET" => value.Equals("utf-8", StringComparison.OrdinalIgnoreCase),
            "FHIRVERSION" => value == "4.0",
            _ => true,
        };
    }

    // R4 http.html#mime-type: _format overrides Accept; 406 when neither can be served (RFC 9110 §15.5.7).
    private static void CheckAccept(SandboxRequest request)
    {
        var format = SearchText.Pairs(request.Query).Find(pair => pair.Key == "_format").Value;
        var wanted = string.IsNullOrEmpty(format) ? request.Header("Accept") : format.Replace(' ', '+');
        if (string.IsNullOrWhiteSpace(wanted))
        {
            return;
        }

        if (!wanted.Split(',').Select(range => range.Split(';', StringSplitOptions.TrimEntries)).Any(Serves))
        {
            throw new SandboxRefusalException(SandboxFault.FormatNotServed, 406, "not-supported", "Answers are JSON of FHIR version 4.0.");
        }
    }

    private static bool Serves(string[] range)
    {
        var refused = range.Skip(1).Any(parameter => parameter is "q=0" or "q=0.0" || !IsKnownParameter(parameter));
        return !refused && (range[0] is "*/*" or "application/*" or "json" || IsFhirJson(range[0]));
    }
}
