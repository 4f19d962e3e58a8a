using System.Text.Json.Nodes;

namespace AirwayGuard.Sandbox.Tests;

/// <summary>Valid resources; all content is invented.</summary>
internal static class Some
{
    public static string Patient(string? id = null, string family = "Muster", string? mrn = null)
    {
        var patient = new JsonObject
        {
            ["resourceType"] = "Patient",
            ["active"] = true,
            ["name"] = new JsonArray(new JsonObject { ["family"] = family, ["given"] = new JsonArray("Alba", "Rena") }),
            ["birthDate"] = "1961-05-04",
        };
        if (mrn is not null)
        {
            patient["identifier"] = new JsonArray(new JsonObject { ["system"] = "urn:demo:mrn", ["value"] = mrn });
        }

        if (id is not null)
        {
            patient["id"] = id;
        }

        return patient.ToJsonString();
    }

    public static string Observation(string patient = "Patient/p1", string code = "suction-pressure", string when = "2026-03-01T07:30:00Z",
        double value = 120, string unit = "mm[Hg]", string status = "final", string? id = null)
    {
        var observation = new JsonObject
        {
            ["resourceType"] = "Observation",
            ["status"] = status,
            ["category"] = new JsonArray(new JsonObject { ["coding"] = new JsonArray(new JsonObject { ["system"] = "urn:demo:category", ["code"] = "therapy" }) }),
            ["code"] = new JsonObject { ["coding"] = new JsonArray(new JsonObject { ["system"] = "urn:demo:codes", ["code"] = code }) },
            ["subject"] = new JsonObject { ["reference"] = patient },
            ["encounter"] = new JsonObject { ["reference"] = "Encounter/e1" },
            ["device"] = new JsonObject { ["reference"] = "Device/d1" },
            ["effectiveDateTime"] = when,
            ["valueQuantity"] = new JsonObject { ["value"] = value, ["unit"] = unit, ["system"] = "http://unitsofmeasure.org", ["code"] = unit },
        };
        if (id is not null)
        {
            observation["id"] = id;
        }

        return observation.ToJsonString();
    }

    public static string Flag(string key, string patient = "Patient/p1", string? author = null)
    {
        var flag = new JsonObject
        {
            ["resourceType"] = "Flag",
            ["identifier"] = new JsonArray(new JsonObject { ["system"] = "urn:demo:key", ["value"] = key }),
            ["status"] = "active",
            ["code"] = new JsonObject { ["text"] = "Look at the order" },
            ["subject"] = new JsonObject { ["reference"] = patient },
        };
        if (author is not null)
        {
            flag["author"] = new JsonObject { ["reference"] = author };
        }

        return flag.ToJsonString();
    }

    public static string Subscription(string criteria, string endpoint = "http://127.0.0.1:9/notify", string? payload = null, string status = "requested",
        string? header = "Authorization: Bearer demo", string? end = null)
    {
        var channel = new JsonObject { ["type"] = "rest-hook", ["endpoint"] = endpoint };
        if (payload is not null)
        {
            channel["payload"] = payload;
        }

        if (header is not null)
        {
            channel["header"] = new JsonArray(header);
        }

        var subscription = new JsonObject
        {
            ["resourceType"] = "Subscription", ["status"] = status, ["reason"] = "demo", ["criteria"] = criteria, ["channel"] = channel,
        };
        if (end is not null)
        {
            subscription["end"] = end;
        }

        return subscription.ToJsonString();
    }

    public static string Bundle(string type, params JsonObject[] entries) => new JsonObject
    {
        ["resourceType"] = "Bundle", ["type"] = type, ["entry"] = new JsonArray([.. entries]),
    }.ToJsonString();

    public static JsonObject Entry(string method, string url, string? resource = null, string? fullUrl = null, string? ifNoneExist = null, string? ifMatch = null)
    {
        var request = new JsonObject { ["method"] = method, ["url"] = url };
        if (ifNoneExist is not null)
        {
            request["ifNoneExist"] = ifNoneExist;
        }

        if (ifMatch is not null)
        {
            request["ifMatch"] = ifMatch;
        }

        var entry = new JsonObject();
        if (fullUrl is not null)
        {
            entry["fullUrl"] = fullUrl;
        }

        if (resource is not null)
        {
            entry["resource"] = JsonNode.Parse(resource);
        }

        entry["request"] = request;
        return entry;
    }
}
