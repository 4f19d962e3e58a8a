namespace AirwayGuard.Rules.Reading;

/// <summary>Lays one rule over the base's of the same id, and notes which key and band is whose.</summary>
internal sealed class RuleMerge(string id, string before, string now, Dictionary<string, string> origins)
{
    private const string All = "all";
    private const string None = "none";

    private static readonly string[] Removable = ["tighten", "allow", "unless", "withheldBy", "sayInstead", "stands"];

    /// <summary>What the rule measures and holds it against, which only together make sense.</summary>
    private static readonly string[] Core = ["measure", "anyOf", .. ComparisonKey.All];

    public MapNode Of(MapNode own, MapNode started)
    {
        origins.TryAdd(id, before);
        var entries = started.Entries.Where(entry => Stays(entry, own)).Select(entry => Merged(entry, own)).OfType<Entry>().ToList();
        foreach (var entry in own.Entries.Where(entry => !entries.Exists(known => known.Key == entry.Key) && !IsRemoval(entry)))
        {
            origins[Path(entry.Key)] = now;
            entries.Add(entry);
        }

        return new MapNode(own.At, entries);
    }

    /// <summary>Where the key of a rule, or a band of it, was stated.</summary>
    public static string PathOf(string rule, string key, string band = "") => band.Length == 0 ? $"{rule}|{key}" : $"{rule}|{key}|{band}";

    private string Path(string key, string band = "") => PathOf(id, key, band);

    private static bool Stays(Entry started, MapNode own)
    {
        // Another measure, or other criteria, leave nothing of what was measured before.
        var isOther = own.Entries.Any(static entry => entry.Key is "measure" or "anyOf");
        var isOtherComparison = own.Entries.Any(entry => ComparisonKey.All.Contains(entry.Key, StringComparer.Ordinal));
        var goes = (isOther && Core.Contains(started.Key, StringComparer.Ordinal)) || (isOtherComparison && ComparisonKey.All.Contains(started.Key, StringComparer.Ordinal));
        return !goes || own.Entries.Any(entry => entry.Key == started.Key);
    }

    private Entry? Merged(Entry started, MapNode own)
    {
        if (own.Entries.FirstOrDefault(entry => entry.Key == started.Key) is not { } differs)
        {
            return new Entry(started.Key, own.At, DocumentMerge.Placed(started.Value, own.At));
        }

        if (IsRemoval(differs))
        {
            return null;
        }

        if (started.Key == "id")
        {
            return differs;
        }

        if (ComparisonKey.All.Contains(started.Key, StringComparer.Ordinal) && differs.Value is MapNode { Entries: var bands } && started.Value is MapNode { Entries: var known }
            && !bands.Any(static band => band.Key == All))
        {
            return differs with { Value = Banded(differs, bands, known) };
        }

        origins[Path(started.Key)] = now;
        return differs;
    }

    private MapNode Banded(Entry comparison, IReadOnlyList<Entry> own, IReadOnlyList<Entry> known)
    {
        var all = known.FirstOrDefault(static band => band.Key == All);
        var merged = new List<Entry>();
        foreach (var (word, _) in Words.Bands)
        {
            if (own.FirstOrDefault(band => band.Key == word) is { } stated)
            {
                origins[Path(comparison.Key, word)] = now;
                merged.Add(stated);
            }
            else if ((known.FirstOrDefault(band => band.Key == word) ?? all) is { } kept)
            {
                merged.Add(new Entry(word, comparison.At, DocumentMerge.Placed(kept.Value, comparison.At)));
            }
        }

        // A slip of the keys is kept, so that the reader names it.
        merged.AddRange(own.Where(band => !Words.Bands.Any(row => row.Word == band.Key)));
        return new MapNode(comparison.Value.At, merged);
    }

    private static bool IsRemoval(Entry entry) => Removable.Contains(entry.Key) && entry.Value is TextNode { Text: None };
}
