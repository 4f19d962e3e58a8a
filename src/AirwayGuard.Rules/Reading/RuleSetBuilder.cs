using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Reading;

/// <summary>Builds the model of a whole document, with what only the whole can check: ids used twice, and checks that withhold others.</summary>
internal static class RuleSetBuilder
{
    public const string SchemaVersion = "1";
    private const string What = "The document";

    /// <summary>The title and the set as far as they could be read; of no worth where there is any fault.</summary>
    public static (string Title, RuleSet? RuleSet) Build(Node? root, Faults faults, Faults notes, string sha256)
    {
        if (root is null)
        {
            faults.Add(Codes.RuleSetEmpty, new Place(1, 1), "The document holds nothing.");
            return ("", null);
        }

        if (SchemaIsAnother(root, faults)
            || Keys.Of(root, faults, What, DocumentKeys.Document) is not { } keys)
        {
            return ("", null);
        }

        // What a document starts from was laid in before: here nothing is left that could be left out.
        if (keys.Find(DocumentKeys.Without) is { } without)
        {
            faults.Add(Codes.RuleSetKeyMissing, without.At, "without stands beside no from.", "Say with from what the document starts from, or leave without out.");
        }

        keys.Required("schema", What);
        if (keys.TryRequiredText("name", What, out var name))
        {
            KebabId.Check(name.Text, name.At, faults);
        }

        keys.TryRequiredText("version", What, out var version);
        keys.TryRequiredText("title", What, out var title);
        var sources = Sources(keys, faults);
        var rules = Rules(keys, sources, faults, notes);
        return (title?.Text ?? "", new RuleSet(name?.Text ?? "", version?.Text ?? "", sha256, rules, sources));
    }

    /// <summary>A document of another schema is not held against the keys of this one.</summary>
    private static bool SchemaIsAnother(Node root, Faults faults)
    {
        var schema = (root as MapNode)?.Entries.FirstOrDefault(entry => entry.Key == "schema");
        if (schema is null or { Value: TextNode { Text: SchemaVersion } })
        {
            return false;
        }

        var written = schema.Value is TextNode text ? Words.Quote(text.Text) : schema.Value.Shape;
        faults.Add(Codes.RuleSetSchemaWrong, schema.Value.At, $"The schema is {written}.");
        return true;
    }

    private static ImmutableArray<Source> Sources(Keys keys, Faults faults)
    {
        if (keys.Required("sources", What) is not { } node)
        {
            return [];
        }

        if (node is not MapNode map)
        {
            faults.Add(Codes.RuleSetShapeWrong, node.At, $"sources is {node.Shape}.", "Write ids with their publication.");
            return [];
        }

        var sources = new List<Source>();
        foreach (var entry in map.Entries)
        {
            KebabId.Check(entry.Key, entry.At, faults);
            if (entry.Value is TextNode { IsBlank: false } title)
            {
                sources.Add(new Source(entry.Key, title.Text.Trim()));
            }
            else
            {
                faults.Add(Codes.RuleSetShapeWrong, entry.Value.At, $"The source {Words.Quote(entry.Key)} names no publication.", "Write its authors, title, journal and year.");
                sources.Add(new Source(entry.Key, ""));
            }
        }

        return [.. sources];
    }

    private static ImmutableArray<Rule> Rules(Keys keys, ImmutableArray<Source> sources, Faults faults, Faults notes)
    {
        if (keys.Required("rules", What) is not { } node)
        {
            return [];
        }

        if (node is not ListNode { Items.Count: > 0 } list)
        {
            faults.Add(Codes.RuleSetShapeWrong, node.At, $"rules is {node.Shape}.", "Write a list of at least one rule.");
            return [];
        }

        var reader = new RuleReader(faults, sources.Select(source => source.Id).ToHashSet(StringComparer.Ordinal));
        var read = list.Items.Select(reader.Read).OfType<(Rule Rule, Place Id, Place WithheldBy, bool SaysMode)>().ToList();
        var ids = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (rule, at, _, _) in read.Where(one => one.Rule.Id.Length > 0))
        {
            if (!ids.Add(rule.Id))
            {
                faults.Add(Codes.RuleIdDoubled, at, $"Another rule has the id {Words.Quote(rule.Id)}.");
            }
        }

        foreach (var (rule, at, _, _) in read.Where(static one => !one.SaysMode && one.Rule.Id.Length > 0))
        {
            notes.Add(Codes.RuleWithoutMode, at, $"{Words.Quote(rule.Id)} says no mode.");
        }

        // An id of a site's own is allowed, so that a slip of the keys can only be asked about.
        foreach (var (rule, at, _, _) in read.Where(one => one.Rule.Id.Length > 0 && !ShippedIds.All.Contains(one.Rule.Id)))
        {
            if (NearWord.Find(rule.Id, ShippedIds.All.Order(StringComparer.Ordinal)) is { } near)
            {
                notes.Add(Codes.RuleIdNearShipped, at, $"No check of a shipped set is called {Words.Quote(rule.Id)}. Did you mean {near}?");
            }
        }

        foreach (var (rule, _, at, _) in read.Where(one => one.Rule.WithheldBy.Length > 0))
        {
            if (rule.WithheldBy == rule.Id || !ids.Contains(rule.WithheldBy))
            {
                faults.Add(
                    Codes.WithheldByUnknown, at,
                    $"withheldBy names {Words.Quote(rule.WithheldBy)}.{Words.DidYouMean(rule.WithheldBy, ids.Where(id => id != rule.Id))}");
            }
        }

        foreach (var (rule, _, at, _) in read.Where(one => one.Rule.WithheldBy.Length > 0 && one.Rule.WithheldBy != one.Rule.Id))
        {
            if (WithholdsItself(rule, read.Select(static one => one.Rule)))
            {
                faults.Add(Codes.WithheldInCircle, at, $"{rule.Id} is withheld by {rule.WithheldBy}, which in the end it withholds itself.");
            }
        }

        return [.. read.Select(one => one.Rule)];
    }

    private static bool WithholdsItself(Rule rule, IEnumerable<Rule> rules)
    {
        var by = rules.Where(static one => one.WithheldBy.Length > 0).GroupBy(static one => one.Id, StringComparer.Ordinal).ToDictionary(static one => one.Key, static one => one.First().WithheldBy, StringComparer.Ordinal);
        var at = rule.WithheldBy;
        for (var steps = 0; steps <= by.Count && at != rule.Id; steps++)
        {
            if (!by.TryGetValue(at, out var next))
            {
                return false;
            }

            at = next;
        }

        return at == rule.Id;
    }
}
