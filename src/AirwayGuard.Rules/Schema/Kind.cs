using System.Collections.Immutable;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Schema;

/// <summary>Measures that take the same limits: amounts of one dimension, or the same codes, and whether they may be missing.</summary>
internal sealed record Kind(string ValueName, ImmutableArray<Measure> Measures)
{
    public static readonly ImmutableArray<Kind> All =
    [
        .. MeasureCatalog.All
            .GroupBy(measure => (Value: ValueNameOf(measure), measure.MayBeMissing, measure.OnlyRuns))
            .OrderBy(group => group.Key.Value, StringComparer.Ordinal).ThenBy(group => group.Key.MayBeMissing).ThenBy(group => group.Key.OnlyRuns)
            .Select(group => new Kind(group.Key.Value, [.. group])),
    ];

    /// <summary>The name of its definitions.</summary>
    public string Name => ValueName + (MayBeMissing ? "-or-missing" : "") + (Measures[0].OnlyRuns ? "-that-runs" : "");

    public Dimension Dimension => Measures[0].Dimension;

    public ImmutableArray<string> Codes => Measures[0].Codes;

    public bool MayBeMissing => Measures[0].MayBeMissing;

    public bool IsCode => Dimension is Dimension.Code or Dimension.YesNo;

    public ImmutableArray<string> Comparisons => [.. ComparisonKey.Fitting(Measures[0])];

    /// <summary>The name of the definition of what is compared with.</summary>
    public string ValueOf(string comparison) => comparison == "outside" ? $"{ValueName}-range" : ValueName;

    private static string ValueNameOf(Measure measure) =>
        measure.Dimension is Dimension.Code or Dimension.YesNo ? string.Join("-or-", measure.Codes) : Kebab(measure.Dimension.ToString());

    private static string Kebab(string word) =>
        string.Concat(word.Select((sign, at) => char.IsAsciiLetterUpper(sign) && at > 0 ? $"-{char.ToLowerInvariant(sign)}" : $"{char.ToLowerInvariant(sign)}"));
}
