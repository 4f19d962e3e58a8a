namespace AirwayGuard.TestKit.Histories;

/// <summary>vacuum-reading-stale and airway-assessment-overdue: what falls due in an episode, once until the time runs anew.</summary>
internal static class DueChecks
{
    public static void Judge(Checks checks)
    {
        foreach (var episode in checks.Airways.Episodes)
        {
            JudgeReading(checks, episode);
            JudgeAssessment(checks, episode);
        }
    }

    // Above 12 h since the latest reading, else since the start, while suction lies within the 24 h before.
    private static void JudgeReading(Checks checks, Episode episode)
    {
        var readings = checks.Known.Of("vacuum-pressure").Where(i => i.Number is not null && !(checks.Choices.SettingMetricReadsNothing && Settings.IsSetValue(checks.Known, i))
            && Settings.Use(checks, i) == "airway").Select(i => i.At).Where(at => Holds(episode, at)).Distinct().ToList();
        var passes = checks.Passes.All.Select(p => p.Start).ToList();
        var found = new List<Occurrence>();
        foreach (var (from, next) in Runs(episode, readings))
        {
            // Falls due when both are so: the time has run, and there is suction within 24 h.
            var over = from + TimeSpan.FromHours(12);
            var due = passes.Select(p => p > over ? p : over).Where(d => passes.Exists(p => p <= d && d - p <= TimeSpan.FromHours(24))).Order()
                .Select(d => (DateTimeOffset?)d).FirstOrDefault();
            if (due is { } at && FallsDue(checks, over, at, next))
            {
                found.Add(new("vacuum-reading-stale", episode.Line, at, [], "low", Band(checks, from, at)) { Value = 12m, Unit = "h" });
            }
        }

        checks.Out.Line(found, readings.Select(Ends), since => checks.HasEnded(episode.Line, since));
    }

    // Above 2 h of a tracheostomy since the start, an assessment or a pass with an indication; of a tube it is silent.
    private static void JudgeAssessment(Checks checks, Episode episode)
    {
        const string check = "airway-assessment-overdue";
        var assessed = checks.Known.Of("airway-assessed").Where(i => i.YesNo == true).Select(i => i.At)
            .Concat(checks.Passes.All.Where(p => IndicationCheck.IsCharted(checks, p)).Select(p => p.Start)).Where(at => Holds(episode, at)).Distinct().Order().ToList();
        var found = new List<Occurrence>();
        foreach (var (from, next) in Runs(episode, assessed))
        {
            // The time runs on from one airway to the next, and falls due while a tracheostomy is in place.
            var over = from + TimeSpan.FromHours(2);
            if (FirstDue(checks, "tracheostomy-tube", over, next) is { } due)
            {
                found.Add(new(check, episode.Line, due, [], "moderate", Band(checks, from, due)) { Value = 2m, Unit = "h" });
            }
            else if (FirstDue(checks, null, over, next) is { } open)
            {
                // Of an airway of which nobody charted the kind nobody can tell.
                checks.Out.CannotTell(check, episode.Line, open);
            }
        }

        checks.Out.Line(found, assessed.Select(Ends), since => checks.HasEnded(episode.Line, since));
    }

    private static IEnumerable<(DateTimeOffset From, DateTimeOffset? Until)> Runs(Episode episode, IReadOnlyList<DateTimeOffset> anew)
    {
        var starts = anew.Prepend(episode.Start).Distinct().Order().ToList();
        return starts.Select((from, n) => (from, n + 1 < starts.Count ? starts[n + 1] : episode.End));
    }

    // By the clock by which its time began to run.
    private static string Band(Checks checks, DateTimeOffset from, DateTimeOffset due) => checks.Band(due.ToOffset(from.Offset));

    private static DateTimeOffset? FirstDue(Checks checks, string? type, DateTimeOffset over, DateTimeOffset? next) => checks.Airways.All
        .Where(a => a.Type == type && !(a.End <= over)).Select(a => a.Start > over ? a.Start : over)
        .Where(due => FallsDue(checks, over, due, next)).Order().Select(due => (DateTimeOffset?)due).FirstOrDefault();

    // The limit is exceeded after its last instant only: neither what comes at it is too late, nor is it over then.
    private static bool FallsDue(Checks checks, DateTimeOffset over, DateTimeOffset due, DateTimeOffset? next) =>
        over < checks.Known.Now && due <= checks.Known.Now && !(next <= due);

    private static bool Holds(Episode episode, DateTimeOffset at) => episode.Start <= at && (episode.End is null || at < episode.End);

    private static (DateTimeOffset, Func<IReadOnlyList<Occurrence>, bool>) Ends(DateTimeOffset at) => (at, _ => true);
}
