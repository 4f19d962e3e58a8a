using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Findings;

/// <summary>When a line ended: the airway removed or exchanged, the patient gone from the bed.</summary>
internal static class LineEnds
{
    /// <returns>UTC ticks of the end; 0 while the line goes on at the time judged.</returns>
    public static long Of(in Timeline timeline, Care care, Line line, long since, in JudgeSettings settings)
    {
        var end = EndOf(timeline, care, line, since);
        return KnownFrom(end, line, settings) <= settings.AsOf ? Math.Max(end, since) : 0;
    }

    /// <returns>UTC ticks at which a line that goes on at the time judged is known to have ended; 0 where nothing charted ends it.</returns>
    public static long DueAt(in Timeline timeline, Care care, Line line, long since, in JudgeSettings settings)
    {
        var end = EndOf(timeline, care, line, since);
        var known = KnownFrom(end, line, settings);
        return known > settings.AsOf && known < DateTime.MaxValue.Ticks ? known : 0;
    }

    private static long EndOf(in Timeline timeline, Care care, Line line, long since) =>
        line.Kind switch
        {
            LineKind.Airway => AirwayEnd(care, line.Entity, since),
            LineKind.Episode => EpisodeEnd(care, line.Entity, since),
            LineKind.Regulator or LineKind.Patient => StayEnd(timeline, since),
            _ => long.MaxValue,
        };

    // Whether an episode goes on is known only once the gap it may bridge is over.
    private static long KnownFrom(long end, Line line, in JudgeSettings settings) =>
        line.Kind == LineKind.Episode && !settings.WaitsAreOver ? Care.SaturatingAdd(end, CareTimes.EpisodeGap) : end;

    private static long AirwayEnd(Care care, Entity identity, long since)
    {
        foreach (ref readonly var airway in care.Airways)
        {
            if (airway.Identity == identity && airway.To > since)
            {
                return airway.To;
            }
        }

        return long.MaxValue;
    }

    private static long EpisodeEnd(Care care, Entity identity, long since)
    {
        // What fell due once the airway was out has nothing more to wait for: it ended with the last of its episodes.
        var last = long.MaxValue;
        foreach (ref readonly var episode in care.Episodes)
        {
            if (episode.Identity == identity)
            {
                last = episode.To;
                if (last > since)
                {
                    break;
                }
            }
        }

        return last;
    }

    // The end of the last encounter that was running then; with none charted the stay goes on.
    private static long StayEnd(in Timeline timeline, long since)
    {
        var end = 0L;
        foreach (ref readonly var period in timeline.Of(Concepts.EncounterPeriod))
        {
            if (period.EffectiveFrom <= since && period.EffectiveTo > since && IsOurs(timeline, period.About))
            {
                end = Math.Max(end, period.EffectiveTo);
            }
        }

        return end == 0 ? long.MaxValue : end;
    }

    private static bool IsOurs(in Timeline timeline, Entity encounter)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.EncounterOf && link.From == encounter)
            {
                return link.To == timeline.Patient;
            }
        }

        return false;
    }
}
