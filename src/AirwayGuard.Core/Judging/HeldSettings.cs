using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// A setting streamed by a device breaches only once it has stood: the readings of its line stay over the limit for as long as the
/// rule says, until one that is not over, or the time judged at. A shorter excursion gives no verdict. A row charted by a person
/// needs no such time.
/// </summary>
internal static class HeldSettings
{
    /// <param name="verdicts">One for each setting, in the settings' order; what has not stood is taken back or held.</param>
    public static void Apply(in Timeline timeline, Care care, Rule rule, in JudgeSettings settings, Span<Verdict> verdicts)
    {
        var runs = new Dictionary<Line, List<int>>();
        for (var i = 0; i < verdicts.Length; i++)
        {
            ref readonly var setting = ref care.Settings[i];
            var isOver = verdicts[i].Outcome == Outcome.Breach;
            if (isOver && !IsStreamed(timeline, verdicts[i]))
            {
                continue;
            }

            if (runs.TryGetValue(setting.Line, out var run) && run.Count > 0)
            {
                // What was read too long ago no longer says how the line stands.
                var lapses = care.Settings[run[^1]].At + CareTimes.ModeHolds;
                if (setting.At > lapses || verdicts[i].Outcome is Outcome.Pass or Outcome.CannotTell)
                {
                    Decide(care, rule, run, Math.Min(setting.At, lapses), true, verdicts);
                }
            }

            if (isOver)
            {
                if (run is null)
                {
                    runs[setting.Line] = run = [];
                }

                run.Add(i);
            }
        }

        foreach (var run in runs.Values.Where(run => run.Count > 0))
        {
            var lapses = care.Settings[run[^1]].At + CareTimes.ModeHolds;
            Decide(care, rule, run, Math.Min(settings.AsOf, lapses), settings.AsOf >= lapses, verdicts);
        }
    }

    private static void Decide(Care care, Rule rule, List<int> run, long end, bool isOver, Span<Verdict> verdicts)
    {
        var stands = care.Settings[run[0]].At + rule.Holds.Ticks;
        if (end < stands)
        {
            foreach (var index in run)
            {
                verdicts[index] = isOver
                    ? verdicts[index] with { Outcome = Outcome.NotApplicable }
                    : verdicts[index] with { Outcome = Outcome.NotYet, DueAt = stands };
            }
        }

        run.Clear();
    }

    private static bool IsStreamed(in Timeline timeline, in Verdict verdict) => verdict.Measured.Charted is >= 0 and var charted
        && (timeline.Facts[charted].Device.Kind == EntityKind.Metric || timeline.Facts[charted].About.Kind == EntityKind.Device);
}
