using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Vacuum depth of a setting, in mm[Hg] or as charted.</summary>
public static class VacuumPressure
{
    public static readonly Measure Measure = new(
        "vacuum-pressure", Dimension.Pressure, Unit.MmHg, [SubjectKind.Setting],
        [Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.VacuumReadingMethod, Concepts.RegulatorMode, Concepts.SuctionUse],
        TimeSpan.FromHours(12), TimeSpan.Zero, [], MayBeMissing: false,
        "vacuum depth below ambient, read or set",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var setting = ref care.Settings[subject.Index];
        var index = Highest(timeline, care, setting, out var untrusted);
        if (index < 0)
        {
            return;
        }

        result.Uses(index);
        result.Charted = index;
        ref readonly var fact = ref timeline.Facts[index];
        if (setting.Lacks != Missing.Nothing)
        {
            result.Missing = setting.Lacks;
            return;
        }

        if (!fact.Value.IsNumber)
        {
            result.Missing = Missing.VacuumValue;
            return;
        }

        var mode = RegulatorModes.InForce(timeline, care, setting, out var modeFact);
        var method = ReadingMethods.Of(timeline, care, index);
        if (fact.Value.Amount == 0m && (mode == 0 || mode == Answers.Off || mode == Answers.FullLine))
        {
            // The gauge shows nothing: off, or bypassed, or nobody can say.
            result.Missing = mode == 0 ? Missing.RegulatorMode : Missing.Nothing;
            return;
        }

        if (fact.Value.Unit == Unit.None && UnitDoubt.LeastPossibleMmHg(fact.Value.Magnitude) > 0m)
        {
            result.UnitIsMissing = true;
        }
        else if (UnitDoubt.IsDoubtful(timeline, index))
        {
            result.Missing = Missing.VacuumUnit;
            return;
        }

        result.Set(fact.Value.Magnitude, fact.Value.Unit);
        result.Comparator = Signed(fact.Value);
        Bear(mode, modeFact, method, ref result);
        if (untrusted && result.WithinIs == Missing.Nothing)
        {
            result.WithinIs = Missing.VacuumUnit;
        }
    }

    // How a reading bears on its line: the method decides whether it can end a finding, the mode whether it says anything.
    private static void Bear(int mode, int modeFact, int method, ref Measured result)
    {
        if (mode == Answers.FullLine)
        {
            result.Uses(modeFact);
            result.Withheld = true;
            result.WithinIsNotJudged = true;
        }

        result.Clearing = method switch
        {
            _ when mode == Answers.FullLine || mode == Answers.Off => ClearingStrength.Never,
            0 => ClearingStrength.Weak,
            _ when method == Answers.Occluded => ClearingStrength.Full,
            _ => ClearingStrength.Never,
        };
        result.BreachIsWeak = method == 0;
        result.WithinIs = method == 0 || method == Answers.Occluded ? Missing.Nothing : Missing.OccludedReading;
    }

    // The worst of one instant. What cannot be trusted or read counts only where there is nothing better, and is noted.
    private static int Highest(in Timeline timeline, Care care, in SettingSpan setting, out bool untrusted)
    {
        var (best, bestMmHg, doubtful) = (-1, -1m, -1);
        foreach (var index in care.FactsOf(setting))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.RegulatorMode)
            {
                continue;
            }

            if (!fact.Value.IsNumber || (UnitDoubt.IsDoubtful(timeline, index) && fact.Value.Amount != 0m))
            {
                doubtful = doubtful < 0 || !timeline.Facts[doubtful].Value.IsNumber || fact.Value.Magnitude > timeline.Facts[doubtful].Value.Magnitude ? index : doubtful;
                continue;
            }

            var mmHg = Depth(fact.Value);
            if (mmHg > bestMmHg)
            {
                (best, bestMmHg) = (index, mmHg);
            }
        }

        untrusted = best >= 0 && doubtful >= 0;
        return best >= 0 ? best : doubtful;
    }

    /// <summary>In mm[Hg], or the number as charted where its unit is none of pressure.</summary>
    /// <summary>Millimetres of mercury below ambient; the number alone where its unit is none of pressure.</summary>
    public static decimal Depth(in FactValue value) => Units.IsPressure(value.Unit) ? Vacuum.ToMmHg(value.Amount, value.Unit) : value.Magnitude;

    // "Less than −120" is a weaker vacuum than 120 in the literature's words, but a comparator on a negative number points the other way.
    internal static Comparator Signed(in FactValue value) => value.Digits >= 0 ? value.Comparator : Comparators.Mirrored(value.Comparator);
}
