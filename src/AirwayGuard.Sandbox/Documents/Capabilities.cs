using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Search;
using Hl7.Fhir.Utility;

namespace AirwayGuard.Sandbox.Documents;

/// <summary>The CapabilityStatement (R4 capabilitystatement.html): what is served and nothing else.</summary>
internal sealed class Capabilities(SandboxRepository repository)
{
    private static readonly string[] Interactions = ["read", "vread", "update", "delete", "history-instance", "history-type", "create", "search-type"];
    private readonly string date = ResourceDocument.Instant(repository.Now);
    private readonly Lock gate = new();
    private (string BaseAddress, byte[] Body)? latest;

    public byte[] For(string baseAddress)
    {
        lock (gate)
        {
            if (latest is not { } known || known.BaseAddress != baseAddress)
            {
                known = (baseAddress, JsonText.Write(Make(baseAddress)));
                latest = known;
            }

            return known.Body;
        }
    }

    private JsonObject Make(string baseAddress) => new()
    {
        ["resourceType"] = "CapabilityStatement",
        ["status"] = "active",
        ["date"] = date,
        ["kind"] = "instance",
        ["software"] = new JsonObject { ["name"] = "FHIR sandbox", ["version"] = typeof(Capabilities).Assembly.GetName().Version!.ToString(3) },
        ["implementation"] = new JsonObject { ["description"] = "A FHIR R4 repository for demonstration and tests, on this machine only", ["url"] = baseAddress },
        ["fhirVersion"] = "4.0.1",
        ["format"] = new JsonArray("json", "application/fhir+json"),
        ["rest"] = new JsonArray(new JsonObject
        {
            ["mode"] = "server",
            ["documentation"] = "No sign-in. Dates without an offset are taken as UTC. Subscriptions: rest-hook to loopback addresses only. "
                + "Composite and special search parameters, patches, operations and XML are not served.",
            ["security"] = new JsonObject { ["cors"] = false },
            ["resource"] = new JsonArray([.. ResourceTypes.All.Select(Resource)]),
            ["interaction"] = Codes(["transaction", "batch", "history-system"]),
            ["searchParam"] = new JsonArray(
                Parameter("_id", "token", "http://hl7.org/fhir/SearchParameter/Resource-id"),
                Parameter("_lastUpdated", "date", "http://hl7.org/fhir/SearchParameter/Resource-lastUpdated")),
        }),
    };

    private static JsonNode Resource(string type)
    {
        var parameters = ParameterCatalog.For(type).Values.OrderBy(p => p.Name, StringComparer.Ordinal).ToList();
        var references = parameters.Where(p => p.Kind == Hl7.Fhir.Model.SearchParamType.Reference).Select(p => (JsonNode)$"{type}:{p.Name}").ToArray();
        var resource = new JsonObject
        {
            ["type"] = type,
            ["interaction"] = Codes(Interactions),
            ["versioning"] = "versioned-update",
            ["readHistory"] = true,
            ["updateCreate"] = true,
            ["conditionalCreate"] = true,
            ["conditionalRead"] = "full-support",
            ["conditionalUpdate"] = true,
            ["conditionalDelete"] = "single",
            ["referencePolicy"] = new JsonArray("literal", "logical"),
        };
        if (references.Length > 0)
        {
            resource["searchInclude"] = new JsonArray(references);
        }

        resource["searchParam"] = new JsonArray([.. parameters.Select(p => Parameter(p.Name, p.Kind.GetLiteral()!, p.Definition))]);
        return resource;
    }

    private static JsonObject Parameter(string name, string type, string? definition)
    {
        var parameter = new JsonObject { ["name"] = name, ["type"] = type };
        if (definition is not null)
        {
            parameter["definition"] = definition;
        }

        return parameter;
    }

    private static JsonArray Codes(IEnumerable<string> codes) => new([.. codes.Select(code => (JsonNode)new JsonObject { ["code"] = code })]);
}
