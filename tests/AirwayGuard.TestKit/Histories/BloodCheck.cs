namespace AirwayGuard.TestKit.Histories;

/// <summary>blood-stained-secretions-trend over sessions; it stands on the episode.</summary>
internal static class BloodCheck
{
    public static readonly IReadOnlyList<string?> Appearances =
    [
        "clear", "white", "yellow", "green", "brown", "grey", "rusty", "purulent", "frothy", "mucoid", "blood-streaked", "frank-blood",
    ];

    /// <param name="IsRead">An appearance was charted that is one of the answers.</param>
    /// <param name="IsUnread">One was charted that is none of them.</param>
    private sealed record Seen(DateTimeOffset At, DateTimeOffset End, string Anchor, bool IsRead, bool IsUnread, bool Frank, bool Blood);

    public static void Judge(Checks checks)
    {
        var seen = new List<Seen>();
        foreach (var session in checks.Passes.Sessions)
        {
            var charted = session.SelectMany(p => p.Items(checks.Known)).Where(i => i is { Concept: "secretion-appearance", Answer: not null }).Select(i => i.Answer).ToList();
            var read = charted.Where(answer => Appearances.Contains(answer, StringComparer.Ordinal)).ToList();
            // A session without one is neither counted nor judged.
            if (charted.Count > 0)
            {
                var frank = read.Contains("frank-blood");
                seen.Add(new(
                    session[0].Start, session.Max(p => p.End ?? p.Start), session[0].Anchor, read.Count > 0, read.Count < charted.Count, frank,
                    frank || read.Contains("blood-streaked")));
            }
        }

        foreach (var line in seen.OrderBy(s => s.At).GroupBy(s => checks.EpisodeLine(s.At), StringComparer.Ordinal))
        {
            JudgeLine(checks, line.Key, [.. line]);
        }
    }

    private static void JudgeLine(Checks checks, string line, List<Seen> all)
    {
        var found = new List<Occurrence>();
        var clear = new List<(DateTimeOffset, Func<IReadOnlyList<Occurrence>, bool>)>();
        var sessions = all.Where(s => s.IsRead).ToList();
        foreach (var session in all)
        {
            var last = sessions.Where(s => s.At <= session.At).TakeLast(3).ToList();
            var blood = last.Count(s => s.Blood);
            var frank = checks.Choices.FrankCountsInTheLastThree ? last.Exists(s => s.Frank) : session.Frank;
            // Blood in two of the last three sessions with an appearance, or frank blood in one; frank blood makes it high.
            if (session.IsRead && (blood >= 2 || frank) && (checks.Choices.ClearSessionMayComplete || session.Blood))
            {
                found.Add(new("blood-stained-secretions-trend", line, session.At, [session.Anchor], frank ? "high" : "moderate", checks.Band(session.At))
                {
                    Value = blood,
                    Unit = "{count}",
                });
            }
            else if (all.Where(s => s.At <= session.At).TakeLast(3).Any(s => s.IsUnread))
            {
                // What was charted and cannot be read may have been frank blood.
                if (checks.HasWaited(session.End))
                {
                    checks.Out.CannotTell("blood-stained-secretions-trend", line, session.At);
                }
            }
            else if (last.Count == 3 && blood == 0)
            {
                // Three clear sessions end it.
                clear.Add((session.At, _ => true));
            }
        }

        checks.Out.Line(found, clear, since => checks.HasEnded(line, since));
    }
}
