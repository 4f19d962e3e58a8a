using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Time since an airway was last assessed: since the latest of the start of its episode, a charted assessment, and a pass with an
/// indication, as somebody looked for it. It falls due only while an airway of the asked kind is in use.
/// </summary>
internal static class AssessmentRuns
{
    /// <param name="kind">Answer's index of the kind of airway. Of one of which no kind is charted nobody can tell.</param>
    public static void List(in Timeline timeline, Care care, int kind, ICollection<DueRun> into)
    {
        foreach (ref readonly var episode in care.Episodes)
        {
            var line = new Line(LineKind.Episode, episode.Identity);
            var (since, fact, offset) = (episode.From, -1, EpisodeStart.OffsetAt(timeline, episode.From));
            while (Next(timeline, care, since, episode.To, out var at, out var found))
            {
                Add(care, kind, new DueRun(line, since, at, since, fact, found, offset), into);
                (since, fact, offset) = (at, found, timeline.Facts[found].OffsetMinutes);
            }

            Add(care, kind, new DueRun(line, since, episode.To, since, fact, -1, offset), into);
        }
    }

    // Where an episode has no charted start, time runs from the first time the airway was looked at.
    private static void Add(Care care, int kind, in DueRun run, ICollection<DueRun> into)
    {
        // The kind asked for comes first: where it falls due, that is told.
        foreach (var (type, open) in (ReadOnlySpan<(int, Missing)>)[(kind, Missing.Nothing), (0, Missing.AirwayType)])
        {
            foreach (ref readonly var airway in care.Airways)
            {
                if (run.Since != long.MinValue && airway.Type == type && airway.From < run.Until && airway.To > run.Since)
                {
                    into.Add(run with { NotBefore = Math.Max(run.Since, airway.From), NotAfter = airway.To, Open = open });
                }
            }
        }
    }

    private static bool Next(in Timeline timeline, Care care, long since, long until, out long at, out int fact)
    {
        (at, fact) = (until, -1);
        var assessed = timeline.Of(Concepts.AirwayAssessed);
        for (var i = Timeline.FirstAfter(assessed, since); i < assessed.Length && assessed[i].EffectiveFrom < at; i++)
        {
            if (assessed[i].About == timeline.Patient && assessed[i].Value.Kind == ValueKind.Yes)
            {
                (at, fact) = (assessed[i].EffectiveFrom, timeline.FirstOf(Concepts.AirwayAssessed) + i);
            }
        }

        for (var i = care.PassesUntil(since); i < care.Passes.Length && care.Passes[i].From < at; i++)
        {
            if (!care.Passes[i].UseUnknown && Indications.Has(timeline, care, care.Passes[i], out var indication))
            {
                (at, fact) = (care.Passes[i].From, indication);
            }
        }

        return fact >= 0;
    }
}
