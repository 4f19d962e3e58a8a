using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Whether vacuum was read before a pass: with the tubing occluded or without a method, from the regulator in use, at most 15 min
/// before the start (from memory), and not before the set value or mode was last changed. A row that names no regulator speaks of
/// the one in use; one that names another does not. A reading of 0, or of a regulator that is off, is none; of one that cannot be read or whose
/// unit is doubtful nobody can tell.
/// </summary>
public static class VacuumCheck
{
    private const long Within = CareTimes.VacuumCheckBefore;

    public static readonly Measure Measure = new(
        "vacuum-check-before-pass", Dimension.YesNo, Unit.None, [SubjectKind.Pass],
        [Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.VacuumReadingMethod, Concepts.RegulatorMode, Concepts.SuctionUse],
        TimeSpan.FromHours(24), TimeSpan.FromMinutes(15), ["yes"], MayBeMissing: true,
        "vacuum read before the pass, with the tubing occluded or without a method",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        var changed = LastChange(timeline, care, pass);
        var (found, unclear) = (-1, Missing.Nothing);
        var settings = care.Settings[care.SettingsUntil(pass.From - Within - 1)..care.SettingsUntil((pass.HasEnd ? pass.To : pass.From) + Within)];
        foreach (ref readonly var setting in settings)
        {
            var isOwn = setting.Pass == subject.Index;
            if (!IsOf(pass, setting) || setting.At < changed
                || !(isOwn || (setting.At <= pass.From && pass.From - setting.At <= Within)))
            {
                continue;
            }

            var reading = Reading(timeline, care, setting, out var lacks);
            unclear = lacks != Missing.Nothing ? lacks : unclear;
            found = reading >= 0 && lacks == Missing.Nothing ? reading : found;
        }

        if (found >= 0)
        {
            result.Uses(found);
            result.Charted = found;
            result.Set("yes");
            result.Clearing = ClearingStrength.Full;
            return;
        }

        result.Missing = unclear;
        result.Omitted = ChartedAsNotDone(timeline, care, pass);
    }

    private static bool IsOf(in PassSpan pass, in SettingSpan setting) =>
        setting.Regulator.IsNone || pass.Regulator.IsNone || setting.Regulator == pass.Regulator;

    // The reading of a setting that shows a vacuum; of several one that can be trusted.
    private static int Reading(in Timeline timeline, Care care, in SettingSpan setting, out Missing lacks)
    {
        var (found, isOff) = (-1, RegulatorModes.InForce(timeline, care, setting, out _) == Answers.Off);
        lacks = Missing.Nothing;
        foreach (var index in care.FactsOf(setting))
        {
            if (isOff || !ShowsVacuum(timeline, care, index))
            {
                continue;
            }

            var lack = setting.Lacks != Missing.Nothing ? setting.Lacks
                : !timeline.Facts[index].Value.IsNumber ? Missing.VacuumValue
                : UnitDoubt.IsDoubtful(timeline, index) ? Missing.VacuumUnit
                : Missing.Nothing;
            (found, lacks) = found < 0 || lack == Missing.Nothing ? (index, lack) : (found, lacks);
        }

        return found;
    }

    private static bool ShowsVacuum(in Timeline timeline, Care care, int index)
    {
        ref readonly var fact = ref timeline.Facts[index];
        return SetValues.IsReading(care, fact) && (fact.Value.Kind == ValueKind.Unreadable || (fact.Value.IsNumber && fact.Value.Amount != 0m))
            && ReadingMethods.Of(timeline, care, index, out _) is var method && (method == 0 || method == Answers.Occluded);
    }

    private static long LastChange(in Timeline timeline, Care care, in PassSpan pass) =>
        Math.Max(LastChange(timeline, care, pass, ofMode: true), LastChange(timeline, care, pass, ofMode: false));

    // Only a change in the minutes before the pass can make a reading older than it, but what was charted before may be of any age.
    // The first that is charted is not known to be a change.
    private static long LastChange(in Timeline timeline, Care care, in PassSpan pass, bool ofMode)
    {
        var (newer, newerAt) = (-1, 0L);
        for (var i = care.SettingsUntil(pass.From) - 1; i >= 0 && (newer >= 0 || care.Settings[i].At >= pass.From - Within); i--)
        {
            if (!IsOf(pass, care.Settings[i]))
            {
                continue;
            }

            var facts = care.FactsOf(care.Settings[i]);
            for (var n = facts.Length - 1; n >= 0; n--)
            {
                ref readonly var fact = ref timeline.Facts[facts[n]];
                if (ofMode ? fact.Concept != Concepts.RegulatorMode || fact.Value.Kind != ValueKind.Code : !SetValues.IsSet(care, fact) || !fact.Value.IsNumber)
                {
                    continue;
                }

                if (newer >= 0 && !(ofMode ? timeline.Facts[newer].Value.Symbol == fact.Value.Symbol : IsSame(timeline.Facts[newer].Value, fact.Value)))
                {
                    return newerAt;
                }

                (newer, newerAt) = (facts[n], care.Settings[i].At);
                if (newerAt < pass.From - Within)
                {
                    return long.MinValue;
                }
            }
        }

        return long.MinValue;
    }

    private static bool IsSame(in FactValue one, in FactValue other) =>
        Units.IsPressure(one.Unit) && Units.IsPressure(other.Unit) && one.Unit != other.Unit
            ? Math.Abs(Vacuum.ToMmHg(one.Amount, one.Unit) - Vacuum.ToMmHg(other.Amount, other.Unit)) <= Vacuum.ToleranceMmHg
            : one.Magnitude == other.Magnitude && one.Unit == other.Unit;

    private static bool ChartedAsNotDone(in Timeline timeline, Care care, in PassSpan pass)
    {
        foreach (var index in care.MembersOf(pass))
        {
            if (timeline.Facts[index].Concept == Concepts.VacuumPressure && timeline.Facts[index].Value.Kind == ValueKind.NotPerformed)
            {
                return true;
            }
        }

        return false;
    }
}
