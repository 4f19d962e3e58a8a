using System.Globalization;

namespace AirwayGuard.Sandbox.Search;

/// <summary>
/// Result sets frozen when first asked for, so that paging neither skips nor repeats while others write
/// (R4 http.html#paging asks no more than that the links stay valid for a while).
/// </summary>
internal sealed class ResultSets(long start, int most)
{
    private readonly Dictionary<string, ResultSet> kept = new(StringComparer.Ordinal);
    private readonly Queue<string> ages = new();
    private long made;

    /// <summary>Keeps a set and gives the name its links carry.</summary>
    public string Keep(ResultSet set)
    {
        if (kept.Count >= most)
        {
            kept.Remove(ages.Dequeue());
        }

        // The count of starts keeps a link of an earlier run from meeting another set after a restart.
        var name = string.Create(CultureInfo.InvariantCulture, $"{start}-{++made}");
        kept.Add(name, set);
        ages.Enqueue(name);
        return name;
    }

    /// <summary>The set of that name; refused with 410 when it is kept no longer.</summary>
    public ResultSet Find(string name) =>
        kept.TryGetValue(name, out var set)
            ? set
            : throw new SandboxRefusalException(SandboxFault.PagesGone, 410, "expired", "The pages of this search are kept no longer.");
}

/// <summary>The versions found, the page size, and how the first page's address reads.</summary>
internal sealed record ResultSet(string BundleType, string Path, string SelfQuery, IReadOnlyList<long> Sequences, int PageSize, SearchQuery? Query);
