using System.Text.Json;
using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Documents;

namespace AirwayGuard.Sandbox.Http;

/// <summary>
/// Replaces links between entries of a transaction by the identities given, and conditional references by what they
/// find (R4 http.html#trules). Links in narrative are left as they are.
/// </summary>
internal sealed class ReferenceResolver(SandboxRepository repository, Dictionary<string, string> identities, Dictionary<string, BundleEntry> byCriteria)
{
    public void Resolve(JsonNode? node)
    {
        if (node is JsonArray list)
        {
            foreach (var item in list)
            {
                Resolve(item);
            }
        }
        else if (node is JsonObject parent)
        {
            foreach (var (name, value) in parent.ToList())
            {
                if (value is not null && value.GetValueKind() == JsonValueKind.String)
                {
                    ResolveText(parent, name, value.GetValue<string>());
                }
                else
                {
                    Resolve(value);
                }
            }
        }
    }

    private void ResolveText(JsonObject parent, string name, string text)
    {
        if (name is "reference" or "url" or "uri" or "valueUri" or "valueUrl" or "valueUuid" && identities.TryGetValue(text, out var identity))
        {
            parent[name] = identity;
        }
        else if (name == "reference")
        {
            if (text.StartsWith("urn:uuid:", StringComparison.Ordinal))
            {
                throw new SandboxRefusalException(SandboxFault.ReferenceUnresolved, 400, "not-found", "A reference names no entry of the transaction.");
            }

            var mark = text.IndexOf('?', StringComparison.Ordinal);
            if (mark > 0 && ResourceTypes.IsKnown(text[..mark]))
            {
                parent[name] = Find(text, text[..mark], text[(mark + 1)..]);
            }
        }
    }

    private string Find(string text, string type, string criteria)
    {
        if (byCriteria.TryGetValue(text, out var entry))
        {
            return $"{type}/{entry.Id}";
        }

        return repository.MatchOne(type, criteria) is { } found
            ? $"{type}/{found.Id}"
            : throw new SandboxRefusalException(SandboxFault.ReferenceUnresolved, 412, "not-found", "A conditional reference matches nothing.");
    }
}
