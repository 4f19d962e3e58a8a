using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>References are written out as addresses of the server.</summary>
public sealed class AbsoluteReferences : AlteredResources
{
    protected override void AlterBody(HttpRequestMessage request, HttpResponseMessage response, JsonObject body)
    {
        foreach (var (resource, _) in ResourcesIn(body))
        {
            WriteOut(resource, BaseOf(request));
        }
    }

    private static void WriteOut(JsonNode? node, string root)
    {
        if (node is JsonArray items)
        {
            foreach (var item in items)
            {
                WriteOut(item, root);
            }
        }
        else if (node is JsonObject members)
        {
            foreach (var (name, value) in members.ToList())
            {
                if (name == "reference" && value is JsonValue text && text.TryGetValue<string>(out var place) && char.IsAsciiLetterUpper(place[0]))
                {
                    members[name] = $"{root}/{place}";
                }
                else
                {
                    WriteOut(value, root);
                }
            }
        }
    }
}
