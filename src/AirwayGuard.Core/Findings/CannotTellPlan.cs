using System.Collections.Immutable;

namespace AirwayGuard.Core.Findings;

/// <summary>What is to change in the records of what could not be told. They are kept and counted; nothing of them is sent.</summary>
public static class CannotTellPlan
{
    /// <param name="records">What is recorded of the patient, by key.</param>
    public static void Add(ImmutableArray<DerivedCannotTell> derived, Dictionary<Guid, FindingRecord> records, List<FindingPlanItem> into)
    {
        var seen = new HashSet<Guid>();
        foreach (var same in derived.GroupBy(one => one.Key))
        {
            var one = Together([.. same]);
            seen.Add(one.Key);
            if (StepOf(one, records.GetValueOrDefault(one.Key)) is { } step)
            {
                into.Add(new FindingPlanItem(step, FindingKind.CannotTell, one.Key, null, null, records.GetValueOrDefault(one.Key), Fingerprints.Of(one), 1, null) { CannotTell = one });
            }
        }

        foreach (var record in records.Values)
        {
            if (record.Kind == FindingKind.CannotTell && record.State == FindingState.Open && !seen.Contains(record.Key))
            {
                into.Add(new FindingPlanItem(FindingStep.Clear, FindingKind.CannotTell, record.Key, null, null, record, Fingerprints.Told, 1, null));
            }
        }
    }

    private static FindingStep? StepOf(DerivedCannotTell one, FindingRecord? record)
    {
        if (record is null)
        {
            return FindingStep.Raise;
        }

        var content = FindingContent.Read(record.Content.Span);
        return content.Fingerprint == Fingerprints.Of(one) ? null
            : record.State == FindingState.Open && content.Missing.SequenceEqual(one.Missing) ? FindingStep.Follow
            : FindingStep.Amend;
    }

    /// <summary>One order may be judged twice by one check, and is told of once.</summary>
    /// <param name="same">At least one, all of one key.</param>
    public static DerivedCannotTell Together(ImmutableArray<DerivedCannotTell> same) => same.Length == 1 ? same[0] : same[0] with
    {
        At = same.Min(one => one.At),
        Latest = same.Max(one => one.Latest),
        Count = same.Sum(one => one.Count),
        Missing = [.. same.SelectMany(one => one.Missing).Distinct()],
        About = [.. same.SelectMany(one => one.About).Distinct()],
    };
}
