using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>A Bundle does not say which conditions were used.</summary>
public sealed class SelfLinkAbsent : AlteredResources
{
    protected override void AlterBody(HttpRequestMessage request, HttpResponseMessage response, JsonObject body)
    {
        if ((string?)body["resourceType"] == "Bundle" && body["link"] is JsonArray links)
        {
            body["link"] = new JsonArray([.. links.Where(link => (string?)link!["relation"] != "self").Select(link => link!.DeepClone())]);
        }
    }
}
