using System.Text.Json;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>A resource on the server that carries a key of ours, whoever wrote it last.</summary>
/// <param name="Subject">Whom it is about, as it says so; empty where it says nothing.</param>
public sealed record OwnResource(Guid Key, string Subject)
{
    /// <summary>Null for another type, and for what carries no key of ours or cannot be read.</summary>
    public static OwnResource? Of(string? type, ReadOnlyMemory<byte> body)
    {
        var (system, subject) = type switch
        {
            "Flag" => (WrittenSystems.Flag, "subject"),
            "DetectedIssue" => (WrittenSystems.Finding, "patient"),
            _ => ("", ""),
        };
        if (system.Length == 0 || body.IsEmpty)
        {
            return null;
        }

        try
        {
            using var document = JsonDocument.Parse(body);
            return KeyOf(document.RootElement, system) is { } key ? new OwnResource(key, Text(Member(Member(document.RootElement, subject), "reference"))) : null;
        }
        catch (JsonException)
        {
            // Its reading tells of it.
            return null;
        }
    }

    /// <summary>Whether it may be about this one: it says so, or nothing.</summary>
    /// <param name="name"><c>Type/id</c>.</param>
    public bool MayBeAbout(string name) => Subject.Length == 0 || Subject == name || Subject.EndsWith("/" + name, StringComparison.Ordinal);

    /// <summary>Says its key only.</summary>
    public override string ToString() => $"OwnResource({Key})";

    private static Guid? KeyOf(JsonElement resource, string system)
    {
        if (Member(resource, "identifier") is not { ValueKind: JsonValueKind.Array } identifiers)
        {
            return null;
        }

        foreach (var identifier in identifiers.EnumerateArray())
        {
            if (Text(Member(identifier, "system")) == system && Guid.TryParse(Text(Member(identifier, "value")), out var key))
            {
                return key;
            }
        }

        return null;
    }

    private static JsonElement Member(JsonElement of, string name) => of.ValueKind == JsonValueKind.Object && of.TryGetProperty(name, out var member) ? member : default;

    private static string Text(JsonElement value) => value.ValueKind == JsonValueKind.String ? value.GetString()! : "";
}
