using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Estimates;

/// <summary>The vacuum of a pass, where it is beyond doubt: exact, in a unit that can be trusted, read occluded or without a method, the regulator not in another mode.</summary>
internal static class PassVacuum
{
    /// <summary>The vacuum that a setting's finding is about.</summary>
    /// <returns>Index of the fact; −1 where it, or another of its instant and kind, is in doubt or differs.</returns>
    public static int OfSetting(in Timeline timeline, Care care, int setting, int charted) =>
        charted >= 0 && Stands(timeline, care, care.Settings[setting], charted) ? charted : -1;

    /// <summary>The reading that counts as the pass's check of its vacuum: its own, else the last within 15 minutes before.</summary>
    /// <returns>Index of the fact; −1 for none, and where it or one of the pass's own is in doubt or differs.</returns>
    public static int OfPass(in Timeline timeline, Care care, in Subject pass)
    {
        var check = Measured.Start();
        VacuumCheck.Measure.Function(pass, timeline, care, ref check);
        if (!check.HasValue || check.Charted < 0)
        {
            return -1;
        }

        foreach (ref readonly var setting in care.Settings)
        {
            if ((setting.Pass == pass.Index || care.FactsOf(setting).Contains(check.Charted)) && !Stands(timeline, care, setting, check.Charted))
            {
                return -1;
            }
        }

        return check.Charted;
    }

    private static bool Stands(in Timeline timeline, Care care, in SettingSpan setting, int vacuum)
    {
        var mode = RegulatorModes.InForce(timeline, care, setting, out _);
        if (setting.Lacks != Missing.Nothing || (mode != 0 && mode != Answers.Regulated))
        {
            return false;
        }

        var isSet = SetValues.IsSet(care, timeline.Facts[vacuum]);
        foreach (var index in care.FactsOf(setting))
        {
            ref readonly var fact = ref timeline.Facts[index];
            var isOfMode = fact.Concept == Concepts.RegulatorMode;
            if (isOfMode ? fact.Value.Kind != ValueKind.Code : (isSet || SetValues.IsReading(care, fact)) && !Agrees(timeline, care, index, vacuum))
            {
                return false;
            }
        }

        return true;
    }

    private static bool Agrees(in Timeline timeline, Care care, int index, int vacuum)
    {
        var (value, used) = (timeline.Facts[index].Value, timeline.Facts[vacuum].Value);
        return value.IsNumber && value.Comparator == Comparator.Exactly && !UnitDoubt.IsDoubtful(timeline, index)
            && ReadingMethods.Of(timeline, care, index) is var method && (method == 0 || method == Answers.Occluded)
            && (index == vacuum || Math.Abs(Vacuum.ToMmHg(value.Amount, value.Unit) - Vacuum.ToMmHg(used.Amount, used.Unit)) <= Vacuum.ToleranceMmHg);
    }
}
