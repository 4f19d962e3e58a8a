using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Baseline inspired oxygen of suction with an open system, as a fraction; 0 with a closed system. Of an order: the latest when it was written.</summary>
public static class OxygenAtOpenSuction
{
    public static readonly Measure Measure = new(
        "baseline-oxygen-at-open-suction", Dimension.Fraction, Unit.One, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.Fio2, Concepts.Preoxygenation, Concepts.SuctionSystem],
        TimeSpan.FromHours(4), TimeSpan.Zero, [], MayBeMissing: false,
        "inspired oxygen before suction with an open system; 0 with a closed one",
        Take)
    {
        ClearedAlsoBy = [SubjectKind.Support],
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var baseline = subject.Kind == SubjectKind.Pass ? BaselineOxygen.Before(timeline, care, subject.Index, highest: true) : BaselineOxygen.At(timeline, care, subject.From, highest: true);
        if (!OpenSuction.IsJudged(subject, timeline, care, baseline, Missing.BaselineOxygen, ref result))
        {
            return;
        }

        var value = timeline.Facts[baseline].Value;
        if (!Fractions.TryInspiredOxygen(value.Amount, out var fraction))
        {
            result.Missing = Missing.BaselineOxygen;
            return;
        }

        result.Set(fraction, Unit.One);
        result.Comparator = value.Comparator;
    }
}
