using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Documents;
using AirwayGuard.Sandbox.Storage;
using Hl7.Fhir.Model;

namespace AirwayGuard.Sandbox.Search;

/// <summary>Turns a resource's JSON into index rows; what does not have the expected shape gives none.</summary>
internal static class Indexer
{
    public static HashSet<IndexEntry> Entries(string type, JsonObject resource)
    {
        var entries = new HashSet<IndexEntry>();
        foreach (var parameter in ParameterCatalog.For(type).Values)
        {
            foreach (var path in parameter.Paths)
            {
                if (path.AsPresence)
                {
                    var present = path.Find(resource).Any(node => node.GetValueKind() != JsonValueKind.False);
                    entries.Add(new TokenEntry(parameter.Key, TokenEntry.Implicit, present ? "true" : "false"));
                    continue;
                }

                foreach (var node in path.Find(resource))
                {
                    entries.UnionWith(EntriesOf(parameter, path, node));
                }
            }
        }

        return entries;
    }

    /// <summary>Text as compared: case does not count (R4 search.html#string).</summary>
    public static string Fold(string text) => text.ToLowerInvariant();

    private static IEnumerable<IndexEntry> EntriesOf(SearchParameter parameter, ElementPath path, JsonNode node) => parameter.Kind switch
    {
        SearchParamType.Token => Tokens(parameter.Key, node),
        SearchParamType.Reference => References(parameter, path, node),
        SearchParamType.Date => Dates(parameter.Key, node),
        SearchParamType.String => Strings(parameter.Key, node),
        SearchParamType.Uri => node.Text() is { } uri ? [new StringEntry(parameter.Key, uri, uri)] : [],
        SearchParamType.Number or SearchParamType.Quantity => Numbers(parameter.Key, node),
        _ => [],
    };

    // R4 search.html#token: Coding, CodeableConcept, Identifier, ContactPoint, code, boolean, string.
    private static IEnumerable<IndexEntry> Tokens(string key, JsonNode node)
    {
        if (node is not JsonObject item)
        {
            var code = node.GetValueKind() switch
            {
                JsonValueKind.True => "true",
                JsonValueKind.False => "false",
                JsonValueKind.String => node.Text(),
                _ => null,
            };
            return code is null ? [] : [new TokenEntry(key, TokenEntry.Implicit, code)];
        }

        if (item["coding"] is JsonArray codings)
        {
            return codings.OfType<JsonObject>().SelectMany(coding => Tokens(key, coding));
        }

        var system = item["system"].Text() ?? "";
        return (item["code"] ?? item["value"]).Text() is { } value ? [new TokenEntry(key, system, value)] : [];
    }

    private static IEnumerable<IndexEntry> References(SearchParameter parameter, ElementPath path, JsonNode node)
    {
        if (node.Text() is { } canonical)
        {
            yield return new ReferenceEntry(parameter.Key, "", canonical, "");
            yield break;
        }

        if (node is not JsonObject reference)
        {
            yield break;
        }

        if (reference.Object("identifier") is { } identifier)
        {
            foreach (var entry in Tokens(parameter.IdentifierKey, identifier))
            {
                yield return entry;
            }
        }

        if (reference["reference"].Text() is { } target)
        {
            var address = ReferenceAddress.Parse(target);
            if (path.OnlyTarget is null || path.OnlyTarget == address.Type)
            {
                yield return new ReferenceEntry(parameter.Key, address.Type, address.Id, address.Base);
            }
        }
    }

    private static IEnumerable<IndexEntry> Dates(string key, JsonNode node)
    {
        if (node.Text() is { } text)
        {
            return DateSpan.TryParse(text, out var span) ? [new DateEntry(key, span.Low, span.High)] : [];
        }

        if (node is not JsonObject item)
        {
            return [];
        }

        var events = (item["event"] as JsonArray)?.OfType<JsonNode>().SelectMany(moment => Dates(key, moment)) ?? [];
        var bounds = item.Object("repeat")?.Object("boundsPeriod") ?? item;
        var (start, end) = (bounds["start"].Text(), bounds["end"].Text());
        if (start is null && end is null)
        {
            return events;
        }

        // R4 search.html#date: a missing bound of a Period is "less than" or "greater than" any date.
        var low = start is null ? long.MinValue : DateSpan.TryParse(start, out var from) ? from.Low : (long?)null;
        var high = end is null ? long.MaxValue : DateSpan.TryParse(end, out var to) ? to.High : (long?)null;
        return low is { } l && high is { } h ? events.Append(new DateEntry(key, l, h)) : events;
    }

    // R4 search.html#string: HumanName and Address match on any of their parts.
    private static IEnumerable<IndexEntry> Strings(string key, JsonNode node) => node switch
    {
        JsonObject item => item.Where(member => member.Key is not ("use" or "type" or "period" or "extension" or "id"))
            .SelectMany(member => member.Value is JsonArray list ? list.OfType<JsonNode>() : member.Value is { } value ? [value] : [])
            .OfType<JsonValue>().SelectMany(value => Strings(key, value)),
        _ => node.Text() is { Length: > 0 } text ? [new StringEntry(key, Fold(text), text)] : [],
    };

    private static IEnumerable<IndexEntry> Numbers(string key, JsonNode node)
    {
        var item = node as JsonObject;
        var value = item is null ? node : item["value"];
        if (value is null || value.GetValueKind() != JsonValueKind.Number
            || !double.TryParse(value.ToJsonString(), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) || !double.IsFinite(number))
        {
            return [];
        }

        return [new NumberEntry(key, number, item?["system"].Text() ?? "", item?["code"].Text() ?? "", item?["unit"].Text() ?? "")];
    }
}
