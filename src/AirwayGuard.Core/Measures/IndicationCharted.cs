using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether a reason for the pass is charted; without one it was made by routine, as far as the chart tells.</summary>
public static class IndicationCharted
{
    public static readonly Measure Measure = new(
        "indication-charted", Dimension.YesNo, Unit.None, [SubjectKind.Pass],
        [Concepts.SuctionIndication],
        TimeSpan.FromHours(1), TimeSpan.FromHours(1), ["yes"], MayBeMissing: true,
        "an indication for suction, coded or in words, charted with the pass or with another pass of its session",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var has = Indications.Has(timeline, care, care.Passes[subject.Index], out var fact);
        if (fact >= 0)
        {
            result.Uses(fact);
            result.Charted = fact;
        }

        if (has)
        {
            result.Set("yes");
        }

        // Charted as not done is an answer: nothing more is to come.
        result.Omitted = !has && fact >= 0 && timeline.Facts[fact].Value.Kind == ValueKind.NotPerformed;
    }
}
