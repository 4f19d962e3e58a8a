using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>What the suction of a reading is used for: said by the row itself, a row of the same instant, or the device.</summary>
internal static class SuctionUse
{
    /// <returns>Index of the answer; 0 where nobody says.</returns>
    public static int Of(in Timeline timeline, Care care, int factIndex, Entity regulator)
    {
        ref readonly var fact = ref timeline.Facts[factIndex];
        var uses = timeline.Of(Concepts.SuctionUse);
        var (sameInstant, ofDevice, ofDeviceAt) = (0, 0, long.MinValue);
        for (var i = 0; i < uses.Length; i++)
        {
            ref readonly var use = ref uses[i];
            if (use.Value.Kind != ValueKind.Code)
            {
                continue;
            }

            if (use.Row == fact.Row)
            {
                return use.Value.Symbol;
            }

            // A use that is a component of another row speaks of that one only.
            if (use.About == fact.About && use.EffectiveFrom == fact.EffectiveFrom && DeviceOf(care, use) == DeviceOf(care, fact)
                && !CarriesOwnSetting(timeline, use))
            {
                sameInstant = use.Value.Symbol;
            }

            if (!regulator.IsNone && use.About == regulator && (use.Has(FactMarks.Timeless) || use.EffectiveFrom <= fact.EffectiveFrom)
                && use.EffectiveFrom >= ofDeviceAt)
            {
                (ofDevice, ofDeviceAt) = (use.Value.Symbol, use.EffectiveFrom);
            }
        }

        return sameInstant > 0 ? sameInstant : ofDevice;
    }

    private static bool CarriesOwnSetting(in Timeline timeline, in Fact use)
    {
        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.RegulatorMode])
        {
            var settings = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(settings, use.EffectiveFrom) - 1; i >= 0 && settings[i].EffectiveFrom == use.EffectiveFrom; i--)
            {
                if (settings[i].Row == use.Row)
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static Entity DeviceOf(Care care, in Fact fact) => care.DeviceOfMetric.GetValueOrDefault(fact.Device, fact.Device);
}
