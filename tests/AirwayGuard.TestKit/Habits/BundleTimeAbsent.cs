using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>A Bundle does not say when it was made; the Date header does.</summary>
public sealed class BundleTimeAbsent(TimeProvider clock) : AlteredResources
{
    protected override void AlterHeaders(HttpRequestMessage request, HttpResponseMessage response) => response.Headers.Date = clock.GetUtcNow();

    protected override void AlterBody(HttpRequestMessage request, HttpResponseMessage response, JsonObject body)
    {
        if ((string?)body["resourceType"] == "Bundle")
        {
            body.Remove("meta");
        }
    }
}
