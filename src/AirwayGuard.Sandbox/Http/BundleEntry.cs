using System.Globalization;
using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Documents;

namespace AirwayGuard.Sandbox.Http;

/// <summary>One entry of a transaction or batch, and what becomes of it.</summary>
internal sealed class BundleEntry
{
    private BundleEntry(int index, string method, string path, string query, JsonObject request, JsonObject entry)
    {
        (Index, Method, Path, Query) = (index, method, path, query);
        FullUrl = entry["fullUrl"].Text();
        Resource = entry.Object("resource");
        IfNoneExist = request["ifNoneExist"].Text();
        foreach (var (member, header) in new[] { ("ifMatch", "If-Match"), ("ifNoneMatch", "If-None-Match"), ("ifNoneExist", "If-None-Exist") })
        {
            if (request[member].Text() is { } value)
            {
                Headers[header] = value;
            }
        }
    }

    public int Index { get; }

    public string Method { get; }

    public string Path { get; }

    public string Query { get; }

    public string? FullUrl { get; }

    public JsonObject? Resource { get; }

    public string? IfNoneExist { get; }

    public Dictionary<string, string> Headers { get; } = new(StringComparer.OrdinalIgnoreCase);

    public ResourceDocument? Document { get; set; }

    /// <summary>The id the entry's resource has or will have.</summary>
    public string? Id { get; set; }

    /// <summary>What a conditional create found instead of creating.</summary>
    public StoredVersion? Found { get; set; }

    /// <summary>An earlier entry with the same <c>ifNoneExist</c>, whose resource this entry means too.</summary>
    public BundleEntry? Twin { get; set; }

    public SandboxResponse? Response { get; set; }

    public string Type => Path.Split('/')[0];

    public Preconditions Preconditions => new(Headers.GetValueOrDefault("If-Match"), Headers.GetValueOrDefault("If-None-Match"));

    public static BundleEntry Read(int index, JsonNode? node, string baseAddress)
    {
        if (node is not JsonObject entry || entry.Object("request") is not { } request
            || request["method"].Text() is not { } method || request["url"].Text() is not { } url)
        {
            throw new SandboxRefusalException(SandboxFault.BundleUnusable, 400, "required", "An entry has no request with method and url.", At(index));
        }

        if (url.StartsWith(baseAddress + "/", StringComparison.Ordinal))
        {
            url = url[baseAddress.Length..];
        }

        var mark = url.IndexOf('?', StringComparison.Ordinal);
        var (path, query) = mark < 0 ? (url, "") : (url[..mark], url[(mark + 1)..]);
        return new BundleEntry(index, method, Uri.UnescapeDataString(path.Trim('/')), query, request, entry);
    }

    /// <summary>The entry as a request of its own.</summary>
    public SandboxRequest AsRequest(SandboxRequest bundle)
    {
        var headers = new Dictionary<string, string>(Headers, StringComparer.OrdinalIgnoreCase);
        if (bundle.Header("Prefer") is { } prefer)
        {
            headers["Prefer"] = prefer;
        }

        return new SandboxRequest
        {
            Method = Method, BaseAddress = bundle.BaseAddress, Path = Path, Query = Query, Headers = headers,
            Body = Resource is null ? default : JsonText.Write(Resource),
        };
    }

    public static string At(int index) => string.Create(CultureInfo.InvariantCulture, $"Bundle.entry[{index}]");

    /// <summary>The refusal with the entry's place in front of its element.</summary>
    public SandboxRefusalException Place(SandboxRefusalException refusal) =>
        new(refusal.Fault, refusal.Status, refusal.IssueCode, refusal.Message, refusal.Expression is null ? At(Index) : $"{At(Index)}.resource.{refusal.Expression}") { LibraryCode = refusal.LibraryCode };
}
