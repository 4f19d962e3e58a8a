using System.Text.Json.Nodes;

namespace AirwayGuard.Worker.Questions;

/// <summary>What is kept of a card about what stands: the finding, which has its own record.</summary>
internal static class ViewContent
{
    public static string Of(Guid finding) => new JsonObject { ["finding"] = finding.ToString() }.ToJsonString();
}
