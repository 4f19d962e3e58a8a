using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>A request that can be read, to be changed in one place.</summary>
internal static class Ask
{
    public const string Draft = """{"resourceType":"DeviceRequest","id":"draft-1","status":"draft","intent":"order","subject":{"reference":"Patient/p1"}}""";

    /// <summary>Of the kind, with all that a client may send.</summary>
    public static JsonObject Whole(Hook hook)
    {
        var context = new JsonObject { ["userId"] = "Practitioner/md3", ["patientId"] = "p1", ["encounterId"] = "e1" };
        if (hook != Hook.PatientView)
        {
            context["draftOrders"] = new JsonObject { ["resourceType"] = "Bundle", ["entry"] = new JsonArray(new JsonObject { ["resource"] = JsonNode.Parse(Draft) }) };
        }

        if (hook == Hook.OrderSelect)
        {
            context["selections"] = new JsonArray("DeviceRequest/draft-1");
        }

        return new JsonObject
        {
            ["hook"] = HookNames.Of(hook),
            ["hookInstance"] = "0c1a3b7e-7a55-4f0e-9f43-52a1f2d1c001",
            ["fhirServer"] = "https://ehr.example.org/fhir",
            ["fhirAuthorization"] = new JsonObject { ["access_token"] = "opaque.token-1", ["token_type"] = "Bearer", ["expires_in"] = 300, ["scope"] = "user/Device.rs", ["subject"] = "airwayguard" },
            ["context"] = context,
            ["prefetch"] = new JsonObject { ["patient"] = JsonNode.Parse("""{"resourceType":"Patient","id":"p1"}"""), ["airway"] = null },
        };
    }

    public static (HookRequest? Request, HookFault? Fault) Read(JsonNode body, Hook hook = Hook.OrderSign) => HookRequestReader.Read(Bytes(body), hook);

    public static (HookRequest? Request, HookFault? Fault) Read(string body, Hook hook = Hook.OrderSign) => HookRequestReader.Read(Encoding.UTF8.GetBytes(body), hook);

    /// <summary>The request with the member at a path set to other JSON, or taken out where there is none.</summary>
    public static JsonObject With(Hook hook, string path, string? json) => With(Whole(hook), path, json);

    public static T With<T>(T body, string path, string? json)
        where T : JsonNode
    {
        JsonNode at = body;
        var steps = path.Split('.');
        foreach (var step in steps[..^1])
        {
            at = int.TryParse(step, CultureInfo.InvariantCulture, out var index) ? at[index]! : at[step]!;
        }

        if (int.TryParse(steps[^1], CultureInfo.InvariantCulture, out var last))
        {
            at[last] = JsonNode.Parse(json!);
        }
        else if (json is null)
        {
            at.AsObject().Remove(steps[^1]);
        }
        else
        {
            at[steps[^1]] = JsonNode.Parse(json);
        }

        return body;
    }

    public static byte[] Bytes(JsonNode body) => Encoding.UTF8.GetBytes(body.ToJsonString());

    /// <summary>The one prefetch key sent so.</summary>
    public static PrefetchPart Prefetched(string json)
    {
        var body = Whole(Hook.PatientView).ToJsonString().Replace("\"airway\":null", "\"airway\":" + json, StringComparison.Ordinal);
        var (request, fault) = Read(body, Hook.PatientView);
        Assert.Null(fault);
        return request!.Prefetch["airway"];
    }

    /// <summary>The JSON with the value of one member replaced, for each of its members.</summary>
    public static IEnumerable<string> Changed(string body, string value) => Enumerable.Range(0, body.Length).Where(at => body[at] == ':' && body[at - 1] == '"')
        .Select(at => body[..(at + 1)] + value + body[End(body, at + 1)..]);

    public static string Text(ReadOnlyMemory<byte> bytes) => Encoding.UTF8.GetString(bytes.Span);

    private static int End(string body, int at)
    {
        var reader = new Utf8JsonReader(Encoding.UTF8.GetBytes(body[at..]));
        reader.Read();
        reader.Skip();
        return at + (int)reader.BytesConsumed;
    }
}
