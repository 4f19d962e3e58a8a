using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Pipeline;

/// <summary>Invented orders and charting of one adult with a tube of 8.0 mm.</summary>
public static class Drafts
{
    public const string Care = "https://airwayguard.example.org/fhir/CodeSystem/airway-care";

    public static readonly DateTimeOffset Now = new(2026, 3, 2, 9, 30, 0, TimeSpan.Zero);

    public static string Patient(string id = "p1", string born = "1961-05-02", string version = "1") =>
        $$$"""{"resourceType":"Patient","id":"{{{id}}}","meta":{"versionId":"{{{version}}}","lastUpdated":"2026-03-01T06:00:00Z"},"birthDate":"{{{born}}}"}""";

    public static string Row(string id, string concept, decimal value, string unit, string at = "2026-03-01T08:00:00Z", string patient = "p1", int version = 1, string saved = "2026-03-01T08:01:00Z") =>
        $$$"""{"resourceType":"Observation","id":"{{{id}}}","meta":{"versionId":"{{{version}}}","lastUpdated":"{{{saved}}}"},"status":"final","code":{"coding":[{"system":"{{{Care}}}","code":"{{{concept}}}"}]},"subject":{"reference":"Patient/{{{patient}}}"},"effectiveDateTime":"{{{at}}}","valueQuantity":{"value":{{{value}}},"unit":"{{{unit}}}","system":"http://unitsofmeasure.org","code":"{{{unit}}}"}}""";

    public static string Tube(decimal millimetres = 8.0m, string patient = "p1") => Row("tube-" + patient, "tube-inner-diameter", millimetres, "mm", patient: patient);

    public static string Airway(string patient = "p1") =>
        $$$"""{"resourceType":"Observation","id":"airway-{{{patient}}}","meta":{"versionId":"1","lastUpdated":"2026-03-01T08:01:00Z"},"status":"final","code":{"coding":[{"system":"{{{Care}}}","code":"airway-type"}]},"subject":{"reference":"Patient/{{{patient}}}"},"effectiveDateTime":"2026-03-01T08:00:00Z","valueCodeableConcept":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"endotracheal-tube"}]}}""";

    /// <summary>An order in words.</summary>
    public static string Words(string text, string id = "d1", string patient = "p1", string status = "draft") =>
        new JsonObject
        {
            ["resourceType"] = "ServiceRequest",
            ["id"] = id,
            ["status"] = status,
            ["intent"] = "order",
            ["code"] = new JsonObject { ["text"] = "Suction endotracheal tube" },
            ["orderDetail"] = new JsonArray(new JsonObject { ["text"] = text }),
            ["subject"] = new JsonObject { ["reference"] = "Patient/" + patient },
        }.ToJsonString();

    /// <summary>An order of equipment with numbers of their own.</summary>
    public static string Equipment(decimal? vacuum = null, decimal? french = null, string id = "e1", string patient = "p1", string unit = "mm[Hg]", JsonNode? parameter = null)
    {
        var parameters = new JsonArray();
        if (vacuum is { } most)
        {
            parameters.Add(Parameter("vacuum-set", new JsonObject { ["value"] = most, ["unit"] = unit, ["system"] = "http://unitsofmeasure.org", ["code"] = unit }));
        }

        if (french is { } size)
        {
            parameters.Add(Parameter("catheter-size", new JsonObject { ["value"] = size, ["unit"] = "Fr", ["system"] = "http://unitsofmeasure.org", ["code"] = "[Ch]" }));
        }

        if (parameter is not null)
        {
            parameters.Add(parameter);
        }

        return new JsonObject
        {
            ["resourceType"] = "DeviceRequest",
            ["id"] = id,
            ["status"] = "draft",
            ["intent"] = "order",
            ["codeCodeableConcept"] = new JsonObject { ["text"] = "Suction set" },
            ["parameter"] = parameters,
            ["subject"] = new JsonObject { ["reference"] = "Patient/" + patient },
        }.ToJsonString();
    }

    public static JsonObject Parameter(string concept, JsonNode value, string member = "valueQuantity") => new()
    {
        ["code"] = new JsonObject { ["coding"] = new JsonArray(new JsonObject { ["system"] = Care, ["code"] = concept }) },
        [member] = value,
    };

    /// <summary>All that an order needs of a patient nobody follows, in the keys that the discovery asks for.</summary>
    public static JsonObject Prefetch(string? patient, params IEnumerable<string> rows) => new()
    {
        ["patient"] = patient is null ? null : JsonNode.Parse(patient),
        ["encounters"] = Bundle(),
        ["devices"] = Bundle(),
        ["deviceUses"] = Bundle(),
        ["conditions"] = Bundle(),
        ["airwayRows"] = Bundle([.. rows]),
        ["recentRows"] = Bundle(),
    };

    public static JsonObject Bundle(params IEnumerable<string> resources) => new()
    {
        ["resourceType"] = "Bundle",
        ["type"] = "searchset",
        ["entry"] = new JsonArray([.. resources.Select(one => (JsonNode)new JsonObject { ["resource"] = JsonNode.Parse(one) })]),
    };
}
