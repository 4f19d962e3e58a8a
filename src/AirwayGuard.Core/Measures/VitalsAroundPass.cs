using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether oxygen saturation and heart rate are charted within five minutes before a pass and within five after it.</summary>
public static class VitalsAroundPass
{
    private static readonly Concept[] Vitals = [Concepts.Spo2, Concepts.HeartRate];

    public static readonly Measure Measure = new(
        "vitals-around-pass", Dimension.YesNo, Unit.None, [SubjectKind.Pass],
        [Concepts.Spo2, Concepts.HeartRate, Concepts.PassDuration],
        TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(10), ["yes"], MayBeMissing: true,
        "oxygen saturation and heart rate within five minutes before the pass and within five after it, all four",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var end = PassTimes.After(timeline, care, care.Passes[subject.Index]);
        var areAll = true;
        foreach (var concept in Vitals)
        {
            areAll &= Uses(AroundPass.Before(timeline, concept, subject.From), ref result);
            areAll &= Uses(AroundPass.After(timeline, concept, subject.From, end), ref result);
        }

        if (areAll)
        {
            result.Set("yes");
        }
    }

    private static bool Uses(int fact, ref Measured result)
    {
        if (fact >= 0)
        {
            result.Uses(fact);
        }

        return fact >= 0;
    }
}
