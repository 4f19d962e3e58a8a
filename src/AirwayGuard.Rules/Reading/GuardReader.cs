using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;

namespace AirwayGuard.Rules.Reading;

/// <summary>
/// Reads guards: measures with the code they must have, or with one comparison
/// (<c>intracranial-pressure-monitored: yes</c>, <c>vacuum-pressure: { above: 150 mm[Hg] }</c>). A guard's limit has no source.
/// </summary>
internal sealed class GuardReader(Faults faults, LimitReader limits)
{
    public ImmutableArray<Guard> Read(Entry entry, ImmutableArray<SubjectKind> judges)
    {
        if (entry.Value is not MapNode { Entries.Count: > 0 } map)
        {
            faults.Add(Codes.RuleSetShapeWrong, entry.Value.At, $"{entry.Key} is {entry.Value.Shape}.", "Write measures with a code, such as { intracranial-pressure-monitored: yes }.");
            return [];
        }

        return [.. map.Entries.Select(guard => One(guard, judges)).OfType<Guard>()];
    }

    private Guard? One(Entry guard, ImmutableArray<SubjectKind> judges)
    {
        if (MeasureKey.Find(guard.Key, guard.At, faults) is not { } measure)
        {
            return null;
        }

        MeasureKey.CheckJudges(measure, judges, guard.At, faults);
        var limit = guard.Value switch
        {
            TextNode text when measure.Codes.Length > 0 => limits.Code(text, measure, Comparison.Is, Codes.GuardCodeUnknown),
            MapNode map => Compared(map, measure),
            _ => Refuse(guard, measure),
        };
        return limit is null ? null : new Guard(measure, limit with { Status = SourceStatus.CommonPractice });
    }

    private Limit? Compared(MapNode map, Measure measure)
    {
        if (Keys.Of(map, faults, "A guard", DocumentKeys.Guard) is not { } keys || ComparisonKey.Find(keys, map.At, measure, faults) is not { } found)
        {
            return null;
        }

        if (!keys.TryText(found.Entry.Key, out var text))
        {
            return null;
        }

        return found.Comparison is Comparison.Is or Comparison.IsNot
            ? limits.Code(text, measure, found.Comparison, Codes.GuardCodeUnknown)
            : limits.Value(text, measure, found.Comparison);
    }

    private Limit? Refuse(Entry guard, Measure measure)
    {
        faults.Add(
            Codes.RuleSetShapeWrong, guard.Value.At, $"The guard on {measure.Id} is {guard.Value.Shape}.",
            measure.Codes.Length > 0 ? Words.Listed(measure.Codes) : "Write one comparison with its limit, such as { above: 10 s }.");
        return null;
    }
}
