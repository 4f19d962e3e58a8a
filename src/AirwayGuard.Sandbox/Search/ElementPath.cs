using System.Collections.Frozen;
using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Documents;

namespace AirwayGuard.Sandbox.Search;

/// <summary>
/// A path through a resource's JSON, made from the few forms of FHIRPath that R4's search parameters use:
/// <c>A.b.c</c>, <c>(A.b as T)</c>, <c>A.b.as(T)</c>, <c>.where(resolve() is T)</c>, <c>.where(name='text')</c>, <c>[0]</c>.
/// </summary>
internal sealed class ElementPath
{
    // R4 datatypes.html#open: the types a choice element's name can end in.
    private static readonly FrozenSet<string> ChoiceTypes = new[]
    {
        "Base64Binary", "Boolean", "Canonical", "Code", "Date", "DateTime", "Decimal", "Id", "Instant", "Integer", "Markdown", "Oid",
        "PositiveInt", "String", "Time", "UnsignedInt", "Uri", "Url", "Uuid", "Address", "Age", "Annotation", "Attachment",
        "CodeableConcept", "Coding", "ContactPoint", "Count", "Distance", "Duration", "HumanName", "Identifier", "Money", "Period",
        "Quantity", "Range", "Ratio", "Reference", "SampledData", "Signature", "Timing",
    }.ToFrozenSet(StringComparer.Ordinal);

    private readonly List<Step> steps = [];

    private ElementPath()
    {
    }

    /// <summary>The type a reference must point to, from <c>resolve() is T</c>.</summary>
    public string? OnlyTarget { get; private set; }

    /// <summary>Whether the path asks only if the element is there and not false (Patient's <c>deceased</c>).</summary>
    public bool AsPresence { get; private set; }

    /// <summary>The alternatives of <paramref name="expression"/> that start at <paramref name="type"/> or at every resource.</summary>
    public static List<ElementPath> ParseFor(string type, string expression)
    {
        var paths = new List<ElementPath>();
        foreach (var alternative in expression.Split(" | ", StringSplitOptions.TrimEntries))
        {
            var text = alternative.TrimStart('(');
            if (char.IsAsciiLetterLower(text[0]))
            {
                // InsurancePlan's name is written without the type.
                paths.Add(Parse($"{type}.{alternative}"));
            }
            else if (text.StartsWith(type + ".", StringComparison.Ordinal) || text.StartsWith("Resource.", StringComparison.Ordinal))
            {
                paths.Add(Parse(alternative));
            }
        }

        return paths;
    }

    /// <summary>All nodes the path leads to; arrays are walked through.</summary>
    public IEnumerable<JsonNode> Find(JsonObject resource)
    {
        IEnumerable<JsonNode> found = [resource];
        foreach (var step in steps)
        {
            found = found.OfType<JsonObject>().SelectMany(step.Take);
        }

        return found;
    }

    private static ElementPath Parse(string text)
    {
        var path = new ElementPath();
        var presence = text.IndexOf(".exists() and ", StringComparison.Ordinal);
        if (presence > 0)
        {
            text = text[..presence];
            path.AsPresence = true;
        }

        if (text.StartsWith('('))
        {
            var close = text.IndexOf(')', StringComparison.Ordinal);
            path.AddCast(text[1..close]);
            text = text[(close + 1)..].TrimStart('.');
        }
        else if (text.Contains(" as ", StringComparison.Ordinal))
        {
            path.AddCast(text);
            text = "";
        }
        else
        {
            text = text[(text.IndexOf('.', StringComparison.Ordinal) + 1)..];
        }

        foreach (var segment in Segments(text))
        {
            path.AddSegment(segment);
        }

        return path;
    }

    private static IEnumerable<string> Segments(string text)
    {
        var (start, open) = (0, 0);
        for (var i = 0; i <= text.Length; i++)
        {
            if (i == text.Length || (text[i] == '.' && open == 0))
            {
                if (i > start)
                {
                    yield return text[start..i];
                }

                start = i + 1;
                continue;
            }

            open += text[i] switch { '(' => 1, ')' => -1, _ => 0 };
        }
    }

    // "A.b.c as T"
    private void AddCast(string text)
    {
        var at = text.IndexOf(" as ", StringComparison.Ordinal);
        foreach (var segment in Segments(at < 0 ? text : text[..at]).Skip(1))
        {
            AddSegment(segment);
        }

        if (at >= 0)
        {
            steps[^1] = steps[^1] with { Type = text[(at + 4)..].Trim() };
        }
    }

    private void AddSegment(string segment)
    {
        if (segment.StartsWith("as(", StringComparison.Ordinal))
        {
            steps[^1] = steps[^1] with { Type = segment[3..^1] };
        }
        else if (segment.StartsWith("where(resolve() is ", StringComparison.Ordinal))
        {
            OnlyTarget = segment["where(resolve() is ".Length..^1];
        }
        else if (segment.StartsWith("where(", StringComparison.Ordinal))
        {
            var parts = segment["where(".Length..^1].Split('=');
            steps[^1] = steps[^1] with { WhereName = parts[0].Trim(), WhereText = parts[1].Trim().Trim('\'') };
        }
        else
        {
            steps.Add(new Step(segment.Replace("[0]", "", StringComparison.Ordinal)));
        }
    }

    private sealed record Step(string Name)
    {
        public string? Type { get; init; }

        public string? WhereName { get; init; }

        public string? WhereText { get; init; }

        public IEnumerable<JsonNode> Take(JsonObject parent)
        {
            foreach (var value in Values(parent))
            {
                foreach (var item in value is JsonArray list ? list : (IEnumerable<JsonNode?>)[value])
                {
                    if (item is not null && (WhereName is null || (item as JsonObject)?[WhereName].Text() == WhereText))
                    {
                        yield return item;
                    }
                }
            }
        }

        private IEnumerable<JsonNode?> Values(JsonObject parent)
        {
            if (Type is not null)
            {
                return [parent[Name + char.ToUpperInvariant(Type[0]) + Type[1..]]];
            }

            return parent.TryGetPropertyValue(Name, out var exact)
                ? [exact]
                : parent.Where(member => member.Key.StartsWith(Name, StringComparison.Ordinal) && ChoiceTypes.Contains(member.Key[Name.Length..])).Select(member => member.Value);
        }
    }
}
