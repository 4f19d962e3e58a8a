using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether the unit of a vacuum can be trusted.</summary>
public static class VacuumUnitDoubt
{
    public static readonly Measure Measure = new(
        "vacuum-unit", Dimension.Code, Unit.None, [SubjectKind.Setting, SubjectKind.Order],
        [Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.OrderVacuumHigh],
        TimeSpan.FromHours(24), TimeSpan.Zero, ["doubtful", "plausible"], MayBeMissing: false,
        "whether the unit of a charted or ordered vacuum can be trusted",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        if (subject.Kind == SubjectKind.Order)
        {
            // What an order allows is its upper value; a lower one counts where it stands alone.
            Ordered(Concepts.OrderVacuumHigh, subject, timeline, care, ref result);
            if (!result.HasValue)
            {
                Ordered(Concepts.OrderVacuumLow, subject, timeline, care, ref result);
            }

            return;
        }

        ref readonly var setting = ref care.Settings[subject.Index];
        if (setting.Lacks != Missing.Nothing)
        {
            return;
        }

        var doubtful = false;
        foreach (var index in care.FactsOf(setting))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept != Concepts.RegulatorMode && fact.Value.IsNumber && !(fact.Value.Amount == 0m && SaysNothing(timeline, care, setting)))
            {
                Note(index, fact.Value, UnitDoubt.IsDoubtful(timeline, index), ref doubtful, ref result);
            }
        }
    }

    private static void Ordered(Concept concept, in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var doubtful = false;
        foreach (var index in Own.Facts(subject, care))
        {
            if (timeline.Facts[index].Concept == concept && timeline.Facts[index].Value.IsNumber)
            {
                Note(index, timeline.Facts[index].Value, UnitDoubt.IsDoubtfulAlone(timeline.Facts[index].Value), ref doubtful, ref result);
            }
        }
    }

    // A gauge at 0 on a regulator that is off or bypassed is not judged.
    private static bool SaysNothing(in Timeline timeline, Care care, in SettingSpan setting)
    {
        var mode = RegulatorModes.InForce(timeline, care, setting, out _);
        return mode == Answers.Off || mode == Answers.FullLine;
    }

    private static void Note(int index, in FactValue value, bool isDoubtful, ref bool doubtful, ref Measured result)
    {
        if (isDoubtful && !doubtful)
        {
            doubtful = true;
            result.Code = "doubtful";
            result.Amount = value.Amount;
            result.Unit = value.Unit;
            result.ShowsAmount = true;
            result.Charted = index;
        }

        if (isDoubtful || !doubtful)
        {
            result.Uses(index);
        }

        result.Code ??= "plausible";
        result.HasValue = true;
    }
}
