using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Seconds from insertion to removal.</summary>
public static class PassDuration
{
    public static readonly Measure Measure = new(
        "pass-duration", Dimension.Duration, Unit.Second, [SubjectKind.Pass],
        [Concepts.PassDuration, Concepts.PassCount, Concepts.SuctionPass],
        TimeSpan.Zero, TimeSpan.Zero, [], MayBeMissing: true,
        "seconds from insertion to removal of the catheter",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        var seconds = -1m;
        if (PassTimes.TryCharted(timeline, care, pass, out var charted, out var fact))
        {
            seconds = charted;
            result.Uses(fact);
            result.Charted = fact;
            result.Comparator = timeline.Facts[fact].Value.Comparator;
        }

        // What was charted counts before the period's length, unless they lie more than a second apart: then the longer.
        if (pass.HasEnd && (seconds < 0m || PassTimes.SpanSeconds(pass) - seconds > CareTimes.DurationToleranceSeconds))
        {
            seconds = PassTimes.SpanSeconds(pass);
            result.Charted = -1;
            result.Comparator = Comparator.Exactly;
        }

        if (seconds < 0m)
        {
            result.Missing = Missing.PassDuration;
            return;
        }

        result.Set(seconds, Unit.Second, PassesCharted(timeline, care, pass, ref result));
        // One duration beside several passes may be their sum: within the limit each was; over it only the mean tells.
        result.OverIs = result.Divisor > 1m ? Missing.DurationOfEachPass : Missing.Nothing;
    }

    private static decimal PassesCharted(in Timeline timeline, Care care, in PassSpan pass, ref Measured result)
    {
        var count = 1m;
        foreach (var index in care.MembersOf(pass))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.PassCount && fact.Value.IsNumber && fact.Value.Amount > count)
            {
                count = fact.Value.Amount;
                result.Uses(index);
            }
        }

        return count;
    }
}
