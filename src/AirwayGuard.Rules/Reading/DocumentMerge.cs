using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Reading;

/// <summary>
/// Lays a document over the one it starts from. A rule whose id the base has states what differs: a band's limit takes the place of that
/// band's, whole with its source and status; any other key takes the base's place; <c>none</c> takes it away. Other rules are added, those
/// listed under <c>without</c> left out.
/// </summary>
internal static class DocumentMerge
{
    /// <summary>What comes from the base stands, for whoever is told of a fault in it, where the document names the base.</summary>
    public static (MapNode Root, IReadOnlyDictionary<string, string> Origins) Of(MapNode own, Place from, BaseDocument started, Faults faults)
    {
        var origins = new Dictionary<string, string>(started.Origins, StringComparer.Ordinal);
        var without = LeftOut(own, started, faults);
        var entries = new List<Entry>();
        foreach (var entry in own.Entries.Where(static entry => entry.Key is not (DocumentKeys.From or DocumentKeys.Without or "sources" or "rules")))
        {
            entries.Add(entry);
        }

        entries.Add(Sources(own, from, started, faults));
        var rules = new List<Node>();
        var written = own.Entries.FirstOrDefault(static entry => entry.Key == "rules")?.Value as ListNode;
        var ownRules = (written?.Items ?? []).OfType<MapNode>().Where(static rule => IdOf(rule) is not null).ToLookup(static rule => IdOf(rule)!, StringComparer.Ordinal);
        foreach (var rule in RulesOf(started.Root))
        {
            var id = IdOf(rule)!;
            if (!without.Contains(id))
            {
                rules.Add(ownRules[id].FirstOrDefault() is { } differs
                    ? new RuleMerge(id, started.Label, WholeDocument.LabelOf(own), origins).Of(differs, rule)
                    : Placed(rule, from));
                Note(rule, id, started.Label, origins);
            }
        }

        // Everything of the document itself that is no change, so that the reader finds its faults: a rule twice, one that is no map.
        var known = RulesOf(started.Root).Select(static rule => IdOf(rule)!).Where(id => !without.Contains(id)).ToHashSet(StringComparer.Ordinal);
        var taken = new HashSet<string>(StringComparer.Ordinal);
        foreach (var item in written?.Items ?? [])
        {
            if (item is MapNode map && IdOf(map) is { } id)
            {
                if (known.Contains(id) && taken.Add(id))
                {
                    continue;
                }

                // Told once as a slip of the id, not by everything that a whole check would need.
                if (!known.Contains(id) && !map.Entries.Any(static entry => entry.Key is "measure" or "anyOf"))
                {
                    faults.Add(Codes.RuleNotOfBase, map.At, without.Contains(id) ? $"{Words.Quote(id)} is left out by without." : $"The base has no check {Words.Quote(id)}.{Words.DidYouMean(id, known)}");
                    continue;
                }

                origins[id] = WholeDocument.LabelOf(own);
            }

            rules.Add(item);
        }

        var at = own.Entries.FirstOrDefault(static entry => entry.Key == "rules") is { } list ? list.At : from;
        entries.Add(new Entry("rules", at, new ListNode(at, rules)));
        if (own.Entries.FirstOrDefault(static entry => entry.Key == "rules") is { Value: not ListNode } wrong)
        {
            faults.Add(Codes.RuleSetShapeWrong, wrong.Value.At, $"rules is {wrong.Value.Shape}.", "Write a list of the rules that differ or are new, or leave the key out.");
        }

        return (new MapNode(own.At, entries), origins);
    }

    public static string? IdOf(MapNode rule) => (rule.Entries.FirstOrDefault(static entry => entry.Key == "id")?.Value as TextNode)?.Text;

    /// <summary>The same, at another place.</summary>
    public static Node Placed(Node node, Place at) => node switch
    {
        TextNode text => text with { At = at },
        ListNode list => new ListNode(at, [.. list.Items.Select(item => Placed(item, at))]),
        MapNode map => new MapNode(at, [.. map.Entries.Select(entry => new Entry(entry.Key, at, Placed(entry.Value, at)))]),
        _ => node,
    };

    private static IEnumerable<MapNode> RulesOf(MapNode root) =>
        ((root.Entries.FirstOrDefault(static entry => entry.Key == "rules")?.Value as ListNode)?.Items ?? []).OfType<MapNode>();

    private static void Note(MapNode rule, string id, string label, Dictionary<string, string> origins)
    {
        if (IdOf(rule) is not null)
        {
            origins.TryAdd(id, label);
        }
    }

    private static Entry Sources(MapNode own, Place from, BaseDocument started, Faults faults)
    {
        var listed = (started.Root.Entries.FirstOrDefault(static entry => entry.Key == "sources")?.Value as MapNode)?.Entries ?? [];
        var added = own.Entries.FirstOrDefault(static entry => entry.Key == "sources");
        if (added is { Value: not MapNode })
        {
            return added;
        }

        var merged = listed.Select(entry => new Entry(entry.Key, from, Placed(entry.Value, from))).ToList();
        foreach (var entry in (added?.Value as MapNode)?.Entries ?? [])
        {
            if (listed.FirstOrDefault(known => known.Key == entry.Key) is { } known)
            {
                // Else a limit of the base would rest on what its committee never read.
                if (known.Value is TextNode before && entry.Value is TextNode now && before.Text.Trim() != now.Text.Trim())
                {
                    faults.Add(Codes.BaseSourceChanged, entry.At, $"The base has another publication as {Words.Quote(entry.Key)}.");
                }

                continue;
            }

            merged.Add(entry);
        }

        var at = added?.At ?? from;
        return new Entry("sources", at, new MapNode(at, merged));
    }

    private static HashSet<string> LeftOut(MapNode own, BaseDocument started, Faults faults)
    {
        var without = new HashSet<string>(StringComparer.Ordinal);
        if (own.Entries.FirstOrDefault(static entry => entry.Key == DocumentKeys.Without) is not { } entry)
        {
            return without;
        }

        var known = RulesOf(started.Root).Select(static rule => IdOf(rule)!).ToList();
        var items = entry.Value is ListNode list ? list.Items : [entry.Value];
        if (items.Count == 0)
        {
            faults.Add(Codes.RuleSetShapeWrong, entry.Value.At, "without is empty.", "Name ids of the base's rules, or leave the key out.");
        }

        foreach (var item in items)
        {
            if (item is TextNode { IsBlank: false } text && known.Contains(text.Text))
            {
                without.Add(text.Text);
            }
            else
            {
                var what = item is TextNode word ? Words.Quote(word.Text) : item.Shape;
                faults.Add(Codes.RuleUnknown, item.At, $"without names {what}, which the base does not have.{(item is TextNode near ? Words.DidYouMean(near.Text, known) : "")}", "Name ids of the base's rules.");
            }
        }

        return without;
    }
}
