using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether an order asks for full line or intermittent suction, as a coded part says.</summary>
public static class OrderedMode
{
    public static readonly Measure Measure = new(
        "order-asks-full-line-or-intermittent", Dimension.YesNo, Unit.None, [SubjectKind.Order],
        [Concepts.RegulatorMode],
        TimeSpan.Zero, TimeSpan.Zero, ["yes"], MayBeMissing: false,
        "whether an order asks for full line or intermittent suction",
        Take);

    /// <summary>A mode that leaves the vacuum to the wall, or to a clock: no instruction that can be held against a limit.</summary>
    public static bool IsBypass(in Fact fact) => fact.Value.Kind == ValueKind.Code
        && (fact.Concept == Concepts.RegulatorMode || fact.Concept == Concepts.OrderUnread)
        && (fact.Value.Symbol == Answers.FullLine || fact.Value.Symbol == Answers.Intermittent);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        foreach (var index in Own.Facts(subject, care))
        {
            if (IsBypass(timeline.Facts[index]))
            {
                result.Uses(index);
                result.Charted = index;
                result.Set("yes");
            }
        }
    }
}
