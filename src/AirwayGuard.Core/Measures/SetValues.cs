using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Tells a regulator's set value from a reading of its gauge, and finds the set value in force.</summary>
internal static class SetValues
{
    /// <summary>A set value: charted as one, or produced by a metric of category setting.</summary>
    public static bool IsSet(Care care, in Fact fact) =>
        fact.Concept == Concepts.VacuumSet
        || (fact.Concept == Concepts.VacuumPressure
            && (fact.Has(FactMarks.Setting) || (!fact.Device.IsNone && care.MetricCategories.GetValueOrDefault(fact.Device) == Answers.Setting)));

    /// <summary>A reading of the gauge, whatever it says.</summary>
    public static bool IsReading(Care care, in Fact fact) => fact.Concept == Concepts.VacuumPressure && !IsSet(care, fact);

    /// <summary>Index of the fact of the set value in force at a setting on its line, at most 12 h old; −1 for none.</summary>
    public static int InForce(in Timeline timeline, Care care, int setting)
    {
        var settings = care.Settings;
        for (var i = care.SettingsUntil(settings[setting].At) - 1; i >= 0 && settings[setting].At - settings[i].At <= CareTimes.ModeHolds; i--)
        {
            if (settings[i].Line != settings[setting].Line)
            {
                continue;
            }

            foreach (var index in care.FactsOf(settings[i]))
            {
                if (IsSet(care, timeline.Facts[index]) && timeline.Facts[index].Value.IsNumber)
                {
                    return index;
                }
            }
        }

        return -1;
    }
}
