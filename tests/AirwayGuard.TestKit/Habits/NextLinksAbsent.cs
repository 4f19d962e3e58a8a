using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary><c>_count</c> cuts, and no link says that there is more.</summary>
public sealed class NextLinksAbsent : AlteredResources
{
    protected override void AlterBody(HttpRequestMessage request, HttpResponseMessage response, JsonObject body)
    {
        if ((string?)body["resourceType"] == "Bundle" && body["link"] is JsonArray links)
        {
            body["link"] = new JsonArray([.. links.Where(link => (string?)link!["relation"] != "next").Select(link => link!.DeepClone())]);
        }
    }
}
