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

    private static readonly FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> ChoiceTypesBySpan = ChoiceTypes.GetAlternateLookup<ReadOnlySpan<char>>();

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
    public List<JsonNode> Find(JsonObject resource)
    {
        var found = new List<JsonNode>();
        Walk(resource, 0, found);
        return found;
    }

    private void Walk(JsonNode node, int depth, List<JsonNode> found)
    {
        if (depth == steps.Count)
        {
            found.Add(node);
        }
        else if (node is JsonObject parent)
        {
            // Every write walks every path of its type, hence no iterators here.
            for (var i = 0; i < parent.Count; i++)
            {
                var (name, value) = parent.GetAt(i);
                if (value is not null && steps[depth].Names(name, parent))
                {
                    Enter(value, depth, found);
                }
            }
        }
    }

    private void Enter(JsonNode value, int depth, List<JsonNode> found)
    {
        if (value is JsonArray list)
        {
            foreach (var item in list)
            {
                if (item is not null && steps[depth].Admits(item))
                {
                    Walk(item, depth + 1, found);
                }
            }
        }
        else if (steps[depth].Admits(value))
        {
            Walk(value, depth + 1, found);
        }
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

        /// <summary>Whether a member of that name is meant: the element itself or, for a choice, one of its types.</summary>
        public bool Names(string member, JsonObject parent)
        {
            if (!member.StartsWith(Name, StringComparison.Ordinal))
            {
                return false;
            }

            var rest = member.AsSpan(Name.Length);
            if (Type is not null)
            {
                return rest.Length == Type.Length && rest[0] == char.ToUpperInvariant(Type[0]) && rest[1..].SequenceEqual(Type.AsSpan(1));
            }

            return rest.IsEmpty || (ChoiceTypesBySpan.Contains(rest) && !parent.ContainsKey(Name));
        }

        public bool Admits(JsonNode item) => WhereName is null || (item as JsonObject)?[WhereName].Text() == WhereText;
    }
}
