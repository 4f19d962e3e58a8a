using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Measures;

/// <summary>The start of an episode as an event of its own, for what runs from it.</summary>
internal static class EpisodeStart
{
    /// <summary>Minutes from UTC in which it is charted: those of the row that tells of it, else of the latest encounter by then, else 0.</summary>
    public static short OffsetAt(in Timeline timeline, long ticks)
    {
        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.AirwayType, Concepts.TubeInnerDiameter])
        {
            var rows = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(rows, ticks) - 1; i >= 0 && rows[i].EffectiveFrom == ticks; i--)
            {
                if (rows[i].About == timeline.Patient && !rows[i].Has(FactMarks.Timeless))
                {
                    return rows[i].OffsetMinutes;
                }
            }
        }

        // A Device in use is linked by instants alone.
        var stays = timeline.Of(Concepts.EncounterPeriod);
        var latest = Timeline.FirstAfter(stays, ticks) - 1;
        return latest < 0 ? (short)0 : stays[latest].OffsetMinutes;
    }
}
