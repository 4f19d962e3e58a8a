namespace AirwayGuard.Sandbox.Http;

/// <summary>One HTTP request as both doors hand it in.</summary>
public sealed class SandboxRequest
{
    /// <summary>The method, upper case.</summary>
    public required string Method { get; init; }

    /// <summary>Scheme, host and prefix under which the client knows the server, without a final slash.</summary>
    public required string BaseAddress { get; init; }

    /// <summary>What follows the base address, decoded, e.g. <c>Patient/1</c>.</summary>
    public required string Path { get; init; }

    /// <summary>The query string, still encoded, with or without its question mark.</summary>
    public string Query { get; init; } = "";

    /// <summary>Headers; names compare without case, several lines of one name are joined by commas.</summary>
    public required IReadOnlyDictionary<string, string> Headers { get; init; }

    /// <summary>The body as it came.</summary>
    public ReadOnlyMemory<byte> Body { get; init; }

    /// <summary>The header's value, null when absent.</summary>
    public string? Header(string name) => Headers.GetValueOrDefault(name);

    /// <summary>Method only: addresses and bodies may tell of patients.</summary>
    public override string ToString() => $"{Method} request";
}
