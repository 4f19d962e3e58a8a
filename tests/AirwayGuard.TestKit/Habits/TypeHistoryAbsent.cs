using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>The history of a type cannot be asked for.</summary>
/// <param name="isDeclared">The CapabilityStatement says that it can.</param>
public sealed class TypeHistoryAbsent(bool isDeclared = false) : AlteredResources
{
    protected override void AlterHeaders(HttpRequestMessage request, HttpResponseMessage response)
    {
        if (PathOf(request) is [_, "_history"] or ["_history"])
        {
            response.StatusCode = System.Net.HttpStatusCode.NotFound;
            JsonAnswer.Write(response, """{"resourceType":"OperationOutcome","issue":[{"severity":"error","code":"not-supported"}]}""", JsonAnswer.FhirJson);
        }
    }

    protected override void AlterBody(HttpRequestMessage request, HttpResponseMessage response, JsonObject body)
    {
        if (isDeclared || (string?)body["resourceType"] != "CapabilityStatement")
        {
            return;
        }

        foreach (var resource in (body["rest"]?[0]?["resource"] as JsonArray ?? []).Where(resource => resource!["interaction"] is not null))
        {
            var kept = resource!["interaction"]!.AsArray().Where(one => (string?)one!["code"] != "history-type").Select(one => one!.DeepClone());
            resource["interaction"] = new JsonArray([.. kept]);
        }
    }
}
