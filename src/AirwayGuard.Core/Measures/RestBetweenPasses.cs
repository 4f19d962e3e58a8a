using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Seconds from the end of the pass before, of the same session, to the start of this one; 0 where they overlap. Nothing for a
/// first pass, or where the end of the one before is not charted.
/// </summary>
public static class RestBetweenPasses
{
    public static readonly Measure Measure = new(
        "rest-between-passes", Dimension.Duration, Unit.Second, [SubjectKind.Pass],
        [Concepts.SuctionPass],
        TimeSpan.FromMinutes(5), TimeSpan.Zero, [], MayBeMissing: false,
        "seconds from the end of the pass before to the start of this one, within a session",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        ref readonly var session = ref care.Sessions[pass.Session];
        var passes = care.PassesOf(session);
        var place = passes.IndexOf(subject.Index);
        if (place < 1 || !care.Passes[passes[place - 1]].HasEnd)
        {
            return;
        }

        ref readonly var before = ref care.Passes[passes[place - 1]];
        result.Set(Math.Max(0, pass.From - before.To), Unit.Second, TimeSpan.TicksPerSecond);
        Use(timeline, care, before, ref result);
    }

    // The row that gave the end of the pass before was compared too.
    private static void Use(in Timeline timeline, Care care, in PassSpan before, ref Measured result)
    {
        foreach (var index in care.MembersOf(before))
        {
            if (timeline.Facts[index].Row == before.Anchor)
            {
                result.Uses(index);
                return;
            }
        }
    }
}
