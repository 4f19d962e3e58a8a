using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Time since vacuum was last read while an airway is suctioned; with no reading yet, since the episode began.</summary>
public static class VacuumReadingAge
{
    /// <summary>Only an episode suctioned within this time before counts (common practice, no source).</summary>
    private const long SuctionWithin = 24 * TimeSpan.TicksPerHour;

    public static readonly Measure Measure = new(
        "time-since-vacuum-read", Dimension.Duration, Unit.Hour, [SubjectKind.Due],
        [Concepts.VacuumPressure, Concepts.SuctionPass],
        TimeSpan.FromDays(2), TimeSpan.Zero, [], MayBeMissing: false,
        "time since vacuum was last read, in an episode suctioned within the last 24 hours",
        DueTimes.Elapsed)
    {
        Runs = List,
    };

    private static void List(in Timeline timeline, Care care, ICollection<DueRun> into)
    {
        foreach (ref readonly var episode in care.Episodes)
        {
            var line = new Line(LineKind.Episode, episode.Identity);
            var (since, fact, offset) = (episode.From, -1, EpisodeStart.OffsetAt(timeline, episode.From));
            foreach (ref readonly var setting in care.Settings)
            {
                var reading = setting.At >= episode.From && setting.At < episode.To ? ReadingOf(timeline, care, setting) : -1;
                if (reading < 0)
                {
                    continue;
                }

                Add(care, line, since, setting.At, fact, reading, offset, into);
                (since, fact, offset) = (setting.At, reading, setting.OffsetMinutes);
            }

            Add(care, line, since, episode.To, fact, -1, offset, into);
        }
    }

    // It falls due only while a pass lies within the day before. Passes not more than a day apart hold it open as one run: one run each
    // would be as many as readings times passes.
    private static void Add(Care care, Line line, long since, long until, int fact, int endedBy, short offset, ICollection<DueRun> into)
    {
        // Of two readings at one instant the first ended nothing: its run would stand for the second's.
        if (since == long.MinValue || since == until)
        {
            return;
        }

        var next = FirstOfAirway(care, care.PassesUntil(since - SuctionWithin - 1));
        while (next < care.Passes.Length && care.Passes[next].From < until)
        {
            var (first, last) = (care.Passes[next].From, care.Passes[next].From);
            for (; next < care.Passes.Length && care.Passes[next].From < until && care.Passes[next].From <= last + SuctionWithin; next = FirstOfAirway(care, next + 1))
            {
                last = care.Passes[next].From;
            }

            into.Add(new DueRun(line, since, until, first, fact, endedBy, offset, NotAfter: last + SuctionWithin));
        }
    }

    private static int FirstOfAirway(Care care, int pass)
    {
        while (pass < care.Passes.Length && care.Passes[pass].UseUnknown)
        {
            pass++;
        }

        return pass;
    }

    private static int ReadingOf(in Timeline timeline, Care care, in SettingSpan setting)
    {
        foreach (var index in care.FactsOf(setting))
        {
            if (SetValues.IsReading(care, timeline.Facts[index]) && timeline.Facts[index].Value.IsNumber)
            {
                return index;
            }
        }

        return -1;
    }
}
