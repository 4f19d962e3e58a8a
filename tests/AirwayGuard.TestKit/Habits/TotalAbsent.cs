using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>A Bundle does not say how many match.</summary>
public sealed class TotalAbsent : AlteredResources
{
    protected override void AlterBody(HttpRequestMessage request, HttpResponseMessage response, JsonObject body) => body.Remove("total");
}
