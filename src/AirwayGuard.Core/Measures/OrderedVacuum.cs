using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// The upper vacuum an order allows, in mm[Hg] or as written: judged as a number, since the order allows up to it.
/// Of several the deepest counts, of a range whichever end is deeper.
/// </summary>
public static class OrderedVacuum
{
    public static readonly Measure Measure = new(
        "ordered-vacuum", Dimension.Pressure, Unit.MmHg, [SubjectKind.Order],
        [Concepts.OrderVacuumHigh, Concepts.OrderVacuumLow, Concepts.RegulatorMode, Concepts.SuctionUse, Concepts.OrderDoNotSuction],
        TimeSpan.Zero, TimeSpan.Zero, [], MayBeMissing: false,
        "upper vacuum depth that an order allows",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var (best, doubtful, only) = (-1, -1, -1);
        var forbids = ValueKind.No;
        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.OrderDoNotSuction && forbids != ValueKind.Yes)
            {
                forbids = fact.Value.Kind;
            }

            if (!IsVacuum(fact.Concept) || !fact.Value.IsNumber)
            {
                continue;
            }

            if (BoundsFromBelow(fact))
            {
                only = Deeper(timeline, only, index);
            }
            else if (fact.Value.Amount != 0m && UnitDoubt.IsDoubtfulAlone(fact.Value))
            {
                doubtful = Deeper(timeline, doubtful, index);
            }
            else
            {
                best = Deeper(timeline, best, index);
            }
        }

        // The deeper end of a range charted with minus signs stands as its lower one.
        best = best >= 0 && only >= 0 && IsEndOfRange(timeline.Facts[only]) && !UnitDoubt.IsDoubtfulAlone(timeline.Facts[only].Value) ? Deeper(timeline, best, only) : best;
        var chosen = best >= 0 ? best : doubtful >= 0 ? doubtful : only;
        if (forbids == ValueKind.Yes)
        {
            // What forbids suction allows no vacuum.
            return;
        }

        if (chosen >= 0 && forbids == ValueKind.Unreadable)
        {
            result.Uses(chosen);
            result.Charted = chosen;
            result.Missing = Missing.WhetherForbidden;
        }
        else if (chosen >= 0)
        {
            Judge(subject, timeline, care, chosen, best >= 0 && doubtful >= 0, best < 0 && doubtful < 0, ref result);
        }
    }

    private static void Judge(in Subject subject, in Timeline timeline, Care care, int chosen, bool untrusted, bool boundsBelow, ref Measured result)
    {
        var value = timeline.Facts[chosen].Value;
        result.Uses(chosen);
        result.Charted = chosen;
        if (value.Amount == 0m)
        {
            var modeFact = Own.Coded(Concepts.RegulatorMode, Own.Facts(subject, care), timeline);
            var mode = modeFact < 0 ? 0 : timeline.Facts[modeFact].Value.Symbol;
            if (mode == 0 || mode == Answers.Off || mode == Answers.FullLine)
            {
                result.Missing = mode == 0 ? Missing.RegulatorMode : Missing.Nothing;
                return;
            }
        }

        if (value.Unit == Unit.None && UnitDoubt.LeastPossibleMmHg(value.Magnitude) > 0m)
        {
            result.UnitIsMissing = true;
        }
        else if (value.Amount != 0m && UnitDoubt.IsDoubtfulAlone(value))
        {
            result.Missing = Missing.VacuumUnit;
            return;
        }

        result.Set(value.Magnitude, value.Unit);
        result.Comparator = boundsBelow ? Comparator.AtLeast : VacuumPressure.Signed(value);
        result.WithinIs = untrusted ? Missing.VacuumUnit : Missing.Nothing;
    }

    private static bool IsVacuum(Concept concept) =>
        concept == Concepts.OrderVacuumHigh || concept == Concepts.OrderVacuumLow;

    private static bool BoundsFromBelow(in Fact fact) =>
        fact.Concept == Concepts.OrderVacuumLow || VacuumPressure.Signed(fact.Value) is Comparator.AtLeast or Comparator.Above;

    private static bool IsEndOfRange(in Fact fact) => fact.Concept == Concepts.OrderVacuumLow && fact.Value.Comparator == Comparator.Exactly;

    private static int Deeper(in Timeline timeline, int one, int other) =>
        one < 0 || VacuumPressure.Depth(timeline.Facts[other].Value) > VacuumPressure.Depth(timeline.Facts[one].Value) ? other : one;
}
