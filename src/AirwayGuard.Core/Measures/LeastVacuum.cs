using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// The weakest vacuum of a setting, in mm[Hg] or as charted. A doubtful unit, a gauge at 0 on a regulator that is off, and full line are
/// not judged.
/// </summary>
public static class LeastVacuum
{
    public static readonly Measure Measure = new(
        "least-vacuum", Dimension.Pressure, Unit.MmHg, [SubjectKind.Setting],
        [Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.RegulatorMode, Concepts.SuctionUse],
        TimeSpan.FromHours(12), TimeSpan.Zero, [], MayBeMissing: false,
        "weakest vacuum depth of a setting, read or set",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var setting = ref care.Settings[subject.Index];
        var (least, leastMmHg, unread) = (-1, 0m, -1);
        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.RegulatorMode)
            {
                continue;
            }

            if (!fact.Value.IsNumber)
            {
                unread = index;
                continue;
            }

            if (fact.Value.Amount != 0m && UnitDoubt.IsDoubtful(timeline, index))
            {
                continue;
            }

            var mmHg = fact.Value.Amount == 0m ? 0m : Vacuum.ToMmHg(fact.Value.Amount, fact.Value.Unit);
            if (least < 0 || mmHg < leastMmHg)
            {
                (least, leastMmHg) = (index, mmHg);
            }
        }

        var chosen = least >= 0 ? least : unread;
        var mode = chosen < 0 ? 0 : RegulatorModes.InForce(timeline, care, setting, out _);
        if (chosen < 0 || mode == Answers.FullLine || (mode == Answers.Off && timeline.Facts[chosen].Value is { IsNumber: true, Amount: 0m }))
        {
            return;
        }

        result.Uses(chosen);
        result.Charted = chosen;
        var value = timeline.Facts[chosen].Value;
        result.Missing = setting.Lacks != Missing.Nothing ? setting.Lacks
            : least < 0 ? Missing.VacuumValue
            : value.Amount == 0m && mode == 0 ? Missing.RegulatorMode
            : Missing.Nothing;
        if (result.Missing == Missing.Nothing)
        {
            result.Set(value.Magnitude, Units.IsPressure(value.Unit) ? value.Unit : Unit.MmHg);
            result.Comparator = VacuumPressure.Signed(value);
        }
    }
}
