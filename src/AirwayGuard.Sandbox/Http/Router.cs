using System.Globalization;
using System.Text;
using AirwayGuard.Sandbox.Documents;
using AirwayGuard.Sandbox.Search;

namespace AirwayGuard.Sandbox.Http;

/// <summary>Finds the interaction a request asks for (R4 http.html#summary) and shapes its answer.</summary>
internal sealed class Router(SandboxRepository repository)
{
    private readonly Pages pages = new(repository);
    private readonly Capabilities capabilities = new(repository);

    public SandboxResponse Answer(SandboxRequest request)
    {
        // RFC 9110 §9.3.2: HEAD is GET without the content.
        var method = request.Method == "HEAD" ? "GET" : request.Method;
        var path = request.Path.Trim('/').Split('/');
        return path switch
        {
            [""] => throw NotAllowed("POST"),
            ["metadata"] => method == "GET" ? SandboxResponse.Json(200, capabilities.For(request.BaseAddress)) : throw NotAllowed("GET, HEAD"),
            ["_history"] => method == "GET" ? pages.History(request, type: null, id: null) : throw NotAllowed("GET, HEAD"),
            [var type, ..] when !ResourceTypes.IsKnown(type) => throw new SandboxRefusalException(SandboxFault.NotThere, 404, "not-supported", "There is no such resource type here."),
            [var type] => OfType(request, method, type),
            [var type, "_search"] => method == "POST" ? pages.Search(request, type, Encoding.UTF8.GetString(request.Body.Span)) : throw NotAllowed("POST"),
            [var type, "_history"] => method == "GET" ? pages.History(request, type, id: null) : throw NotAllowed("GET, HEAD"),
            [var type, var id] when ResourceTypes.IsId(id) => OfInstance(request, method, type, id),
            [var type, var id, "_history"] when ResourceTypes.IsId(id) => method == "GET" ? pages.History(request, type, id) : throw NotAllowed("GET, HEAD"),
            [var type, var id, "_history", var version] when ResourceTypes.IsId(id) => method == "GET" ? ReadVersion(type, id, version) : throw NotAllowed("GET, HEAD"),
            _ => throw new SandboxRefusalException(SandboxFault.NotThere, 404, "not-found", "There is nothing at this address."),
        };
    }

    /// <summary>The answer to a write as the client prefers it (R4 http.html#ops).</summary>
    public static SandboxResponse Written(SandboxRequest request, WriteResult result)
    {
        var version = result.Version;
        var body = Preference.Return(request) switch
        {
            "minimal" => ReadOnlyMemory<byte>.Empty,
            "OperationOutcome" => JsonText.Write(Outcome.Of("information", "informational", result.Written ? "The resource was stored." : "The resource was there already.")),
            _ => version.Body,
        };
        return SandboxResponse.Of(result.Created ? 201 : 200, version, body, Location(request.BaseAddress, version));
    }

    public static string Location(string baseAddress, StoredVersion version) =>
        string.Create(CultureInfo.InvariantCulture, $"{baseAddress}/{version.Type}/{version.Id}/_history/{version.VersionId}");

    private SandboxResponse OfType(SandboxRequest request, string method, string type) => method switch
    {
        "GET" => pages.Search(request, type, form: ""),
        "POST" => Create(request, type),
        "PUT" => Written(request, repository.UpdateMatching(Criteria(request), Document(request, type), Conditions(request))),
        "DELETE" => DeleteMatching(request, type),
        _ => throw NotAllowed("GET, HEAD, POST, PUT, DELETE"),
    };

    private SandboxResponse OfInstance(SandboxRequest request, string method, string type, string id) => method switch
    {
        "GET" => Read(request, type, id),
        "PUT" => Written(request, repository.Update(type, id, Document(request, type), Conditions(request))),
        "DELETE" => Deleted(request, repository.Delete(type, id, Conditions(request))),
        _ => throw NotAllowed("GET, HEAD, PUT, DELETE"),
    };

    private SandboxResponse Create(SandboxRequest request, string type) =>
        Written(request, repository.Create(Document(request, type), request.Header("If-None-Exist"), assignedId: null));

    private SandboxResponse Read(SandboxRequest request, string type, string id)
    {
        var version = Existing(repository.Read(type, id));
        Conditions(request).CheckRead(version);
        // RFC 9110 §13.1.2 and §13.1.3: If-Modified-Since counts only without If-None-Match, and in whole seconds.
        var unchanged = request.Header("If-None-Match") is { } tags
            ? EntityTags.AnyMatches(tags, version.ETag)
            : HttpDate.TryRead(request.Header("If-Modified-Since"), out var since) && version.LastUpdated.ToUnixTimeSeconds() <= since.ToUnixTimeSeconds();
        return SandboxResponse.Of(unchanged ? 304 : 200, version, unchanged ? default : version.Body);
    }

    private SandboxResponse ReadVersion(string type, string id, string number)
    {
        var version = int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? repository.Read(type, id, n) : null;
        version = Existing(version);
        return SandboxResponse.Of(200, version, version.Body);
    }

    // R4 http.html#read: 410 for a deleted resource, 404 for one never known.
    private static StoredVersion Existing(StoredVersion? version) => version switch
    {
        null => throw new SandboxRefusalException(SandboxFault.NotThere, 404, "not-found", "There is no such resource."),
        { IsDeletion: true } => throw new SandboxRefusalException(SandboxFault.Deleted, 410, "deleted", "The resource was deleted."),
        _ => version,
    };

    private SandboxResponse DeleteMatching(SandboxRequest request, string type) => repository.Transact(() =>
        Deleted(request, repository.MatchOne(type, Criteria(request)) is { } found ? repository.Delete(type, found.Id, Conditions(request)) : null));

    // R4 http.html#delete: 204 whether or not anything was there; the deletion's version is told when there is one.
    private static SandboxResponse Deleted(SandboxRequest request, StoredVersion? deletion)
    {
        if (Preference.Return(request) == "OperationOutcome")
        {
            return SandboxResponse.Json(200, Outcome.Of("information", "informational", deletion is null ? "Nothing was there." : "The resource was deleted."));
        }

        return deletion is null ? SandboxResponse.Empty(204) : SandboxResponse.Of(204, deletion, default);
    }

    private ResourceDocument Document(SandboxRequest request, string type)
    {
        var document = ResourceDocument.Read(request.Body, repository.Options);
        return document.Type == type
            ? document
            : throw new SandboxRefusalException(SandboxFault.WrongType, 400, "invalid", "The resource is not of the type in the address.", "resourceType");
    }

    private static string Criteria(SandboxRequest request) => request.Query.TrimStart('?');

    private static Preconditions Conditions(SandboxRequest request) => new(request.Header("If-Match"), request.Header("If-None-Match"), request.Header("If-Unmodified-Since"));

    private static SandboxRefusalException NotAllowed(string allow) =>
        new(SandboxFault.MethodNotServed, 405, "not-supported", "The method is not served at this address.") { Allow = allow };
}
