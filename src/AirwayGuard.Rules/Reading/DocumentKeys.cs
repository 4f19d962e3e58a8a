using System.Collections.Immutable;

namespace AirwayGuard.Rules.Reading;

/// <summary>The keys of a rule-set document, map by map, and the words that stand for a limit: what the reader takes and the schema offers.</summary>
internal static class DocumentKeys
{
    public const string All = "all", NotJudged = "not-judged";

    /// <summary>Of a rule that ships without a limit: it judges nothing until a site writes its own in place of this word.</summary>
    public const string SiteSets = "site-sets";

    /// <summary>What a document starts from, and which of its rules it leaves out.</summary>
    public const string From = "from", Without = "without";

    public static readonly ImmutableArray<string> Document = ["schema", "name", "version", "title", From, Without, "sources", "rules"];

    /// <summary>Takes a key of the base away from a rule that differs.</summary>
    public const string None = "none";

    public static readonly ImmutableArray<string> Removable = ["tighten", "allow", "unless", "withheldBy", "sayInstead", "stands"];

    public static readonly ImmutableArray<string> Rule =
    [
        "id", "title", "judges", "measure", .. ComparisonKey.All, "anyOf", "severity", "tighten", "allow", "unless", "withheldBy", "needsAge",
        "stands", "waits", "holds", "mode", "say", "sayInstead", "do", "clears",
    ];

    public static readonly ImmutableArray<string> Criterion = ["measure", .. ComparisonKey.All, "severity"];

    public static readonly ImmutableArray<string> Tightening = ["when", .. ComparisonKey.All];

    public static readonly ImmutableArray<string> Allowance = ["reason", "bands", "limit", "source", "status"];

    public static readonly ImmutableArray<string> Limit = ["limit", "source", "status"];

    public static readonly ImmutableArray<string> LimitOfMissing = ["source", "status"];

    public static readonly ImmutableArray<string> Mode = ["default"];

    /// <summary>The bands, and the word for all of them.</summary>
    public static readonly ImmutableArray<string> Bands = [.. Words.Bands.Select(band => band.Word), All];

    /// <summary>Comparisons of a guard: that something is missing is none.</summary>
    public static readonly ImmutableArray<string> Guard = ComparisonKey.All.Remove("missing", StringComparer.Ordinal);
}
