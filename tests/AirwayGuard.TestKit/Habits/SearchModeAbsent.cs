using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>Entries do not say why they are in the Bundle.</summary>
public sealed class SearchModeAbsent : AlteredResources
{
    protected override void AlterBody(HttpRequestMessage request, HttpResponseMessage response, JsonObject body)
    {
        foreach (var entry in EntriesIn(body))
        {
            entry.Remove("search");
        }
    }
}
