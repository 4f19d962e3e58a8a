using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Rules.Reading;

/// <summary>The one key of a map that names the breach.</summary>
internal static class ComparisonKey
{
    public static readonly ImmutableArray<string> All = [.. Words.Comparisons.Select(row => row.Word)];

    /// <summary>The comparison and its entry; null (and a fault) where there is none, more than one, or one that does not fit.</summary>
    public static (Comparison Comparison, Entry Entry)? Find(Keys keys, Place at, Measure? measure, Faults faults)
    {
        var found = Words.Comparisons.Where(row => keys.Has(row.Word)).ToList();
        if (found.Count == 0)
        {
            faults.Add(Codes.ComparisonMissing, at, "Nothing says what a breach is.", Words.Listed(measure is null ? All : Fitting(measure)));
            return null;
        }

        foreach (var extra in found.Skip(1))
        {
            faults.Add(
                Codes.ComparisonDoubled, keys.Find(extra.Word)!.At, $"{extra.Word} stands beside {found[0].Word}; a band would have two limits.");
        }

        var entry = keys.Find(found[0].Word)!;
        if (measure is not null && !Fitting(measure).Contains(found[0].Word))
        {
            faults.Add(
                Codes.ComparisonDoesNotFit, entry.At, $"{measure.Id} cannot be compared by {found[0].Word}.", Words.Listed(Fitting(measure)));
            return null;
        }

        return (found[0].Value, entry);
    }

    /// <summary>Codes and marks are or are not; numbers lie above, below or outside, time that only runs above; only some measures can be missing.</summary>
    public static List<string> Fitting(Measure measure)
    {
        var isCode = measure.Dimension is Dimension.Code or Dimension.YesNo;
        return
        [
            .. Words.Comparisons
                .Where(row => row.Value switch
                {
                    Comparison.Is or Comparison.IsNot => isCode,
                    Comparison.Missing => measure.MayBeMissing,
                    Comparison.Above => !isCode && measure.Dimension != Dimension.Date,
                    _ when measure.OnlyRuns => false,
                    _ => !isCode && measure.Dimension != Dimension.Date,
                })
                .Select(row => row.Word),
        ];
    }
}
