using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>The regulator's mode at a setting: charted with it, else the latest on its line, which holds until changed, at most 12 h.</summary>
internal static class RegulatorModes
{
    /// <summary>The mode charted with the setting, as a fact's index; −1 for none. Of several the full line counts, then intermittent.</summary>
    public static int OwnFact(in Timeline timeline, Care care, in SettingSpan setting)
    {
        var own = -1;
        foreach (var index in care.FactsOf(setting))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.RegulatorMode && (own < 0 || fact.Value.Symbol == Answers.FullLine
                || (fact.Value.Symbol == Answers.Intermittent && timeline.Facts[own].Value.Symbol != Answers.FullLine)))
            {
                own = index;
            }
        }

        return own;
    }

    /// <returns>Index of the answer; 0 where no mode is known.</returns>
    public static int InForce(in Timeline timeline, Care care, in SettingSpan setting, out int factIndex)
    {
        factIndex = -1;
        var settings = care.Settings;
        for (var i = care.SettingsUntil(setting.At) - 1; i >= 0; i--)
        {
            ref readonly var earlier = ref settings[i];
            if (earlier.Line != setting.Line)
            {
                continue;
            }

            if (setting.At - earlier.At > CareTimes.ModeHolds)
            {
                break;
            }

            factIndex = OwnFact(timeline, care, earlier);
            if (factIndex >= 0 && timeline.Facts[factIndex].Value.Kind == ValueKind.Code)
            {
                return timeline.Facts[factIndex].Value.Symbol;
            }
        }

        factIndex = -1;
        return 0;
    }
}
