using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// How far a reading lies from the set value in force on the same line, in mm[Hg] or the unit charted. A set value holds until it
/// is changed, at most 12 h. At full line nothing is compared, which goes past the regulator; nor is a zero with the regulator off.
/// </summary>
public static class SetVacuumDifference
{
    public static readonly Measure Measure = new(
        "set-vacuum-difference", Dimension.Pressure, Unit.MmHg, [SubjectKind.Setting],
        [Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.RegulatorMode, Concepts.SuctionUse],
        TimeSpan.FromHours(12), TimeSpan.Zero, [], MayBeMissing: false,
        "difference between a vacuum reading and the regulator's set value in force",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var setting = ref care.Settings[subject.Index];
        var set = SetValues.InForce(timeline, care, subject.Index);
        var mode = set < 0 ? 0 : RegulatorModes.InForce(timeline, care, setting, out _);
        if (set < 0 || mode == Answers.FullLine)
        {
            return;
        }

        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (SetValues.IsReading(care, fact) && !(mode == Answers.Off && fact.Value.IsNumber && fact.Value.Amount == 0m))
            {
                var one = Measured.Start();
                Compare(timeline, setting, index, set, mode, ref one);
                result = Worse(result, one) ? one : result;
            }
        }
    }

    private static void Compare(in Timeline timeline, in SettingSpan setting, int reading, int set, int mode, ref Measured result)
    {
        result.Uses(reading);
        result.Uses(set);
        result.Charted = reading;
        var (read, wanted) = (timeline.Facts[reading].Value, timeline.Facts[set].Value);
        result.Missing = setting.Lacks != Missing.Nothing ? setting.Lacks
            : !read.IsNumber ? Missing.VacuumValue
            : read.Amount == 0m && mode == 0 ? Missing.RegulatorMode
            : IsDoubtful(timeline, reading) || IsDoubtful(timeline, set) ? Missing.VacuumUnit
            : Missing.Nothing;
        if (result.Missing != Missing.Nothing)
        {
            return;
        }

        // In a unit other than mm[Hg] where either was charted in one, so that conversion noise is allowed for.
        var unit = read.Unit == Unit.MmHg ? wanted.Unit : read.Unit;
        var difference = Vacuum.Convert(read.Magnitude, read.Unit, unit) - Vacuum.Convert(wanted.Magnitude, wanted.Unit, unit);
        var comparator = VacuumPressure.Signed(read);
        if (wanted.Comparator != Comparator.Exactly || (comparator is Comparator.Above or Comparator.AtLeast && difference < 0m)
            || (comparator is Comparator.Below or Comparator.AtMost && difference > 0m))
        {
            result.Missing = Missing.ExactValue;
            return;
        }

        result.Set(Math.Abs(difference), unit);
        result.Comparator = comparator switch
        {
            Comparator.Below => Comparator.Above,
            Comparator.AtMost => Comparator.AtLeast,
            _ => comparator,
        };
    }

    private static bool IsDoubtful(in Timeline timeline, int index) => timeline.Facts[index].Value.Amount != 0m
        ? UnitDoubt.IsDoubtful(timeline, index)
        : !Units.IsPressure(timeline.Facts[index].Value.Unit);

    private static bool Worse(in Measured than, in Measured one) =>
        than.Count == 0 || (one.HasValue && (!than.HasValue || Vacuum.ToMmHg(one.Amount, one.Unit) > Vacuum.ToMmHg(than.Amount, than.Unit)));
}
