namespace AirwayGuard.TestKit.Histories;

/// <summary>blood-stained-secretions-trend over sessions; it stands on the episode.</summary>
internal static class BloodCheck
{
    public static readonly IReadOnlyList<string?> Appearances =
    [
        "clear", "white", "yellow", "green", "brown", "grey", "rusty", "purulent", "frothy", "mucoid", "blood-streaked", "frank-blood",
    ];

    private sealed record Seen(DateTimeOffset At, string Anchor, bool Frank, bool Blood);

    public static void Judge(Checks checks)
    {
        var seen = new List<Seen>();
        foreach (var session in checks.Passes.Sessions)
        {
            var charted = session.SelectMany(p => p.Items(checks.Known)).Where(i => i.Concept == "secretion-appearance" && Appearances.Contains(i.Answer, StringComparer.Ordinal)).Select(i => i.Answer).ToList();
            // A session without one is neither counted nor judged.
            if (charted.Count > 0)
            {
                var frank = charted.Contains("frank-blood");
                seen.Add(new(session[0].Start, session[0].Anchor, frank, frank || charted.Contains("blood-streaked")));
            }
        }

        foreach (var line in seen.OrderBy(s => s.At).GroupBy(s => checks.EpisodeLine(s.At), StringComparer.Ordinal))
        {
            JudgeLine(checks, line.Key, [.. line]);
        }
    }

    private static void JudgeLine(Checks checks, string line, List<Seen> sessions)
    {
        var found = new List<Occurrence>();
        var clear = new List<(DateTimeOffset, Func<IReadOnlyList<Occurrence>, bool>)>();
        for (var i = 0; i < sessions.Count; i++)
        {
            var last = sessions.Take(i + 1).TakeLast(3).ToList();
            var blood = last.Count(s => s.Blood);
            var frank = checks.Choices.FrankCountsInTheLastThree ? last.Exists(s => s.Frank) : sessions[i].Frank;
            // Blood in two of the last three sessions with an appearance, or frank blood in one; frank blood makes it high.
            if ((blood >= 2 || frank) && (checks.Choices.ClearSessionMayComplete || sessions[i].Blood))
            {
                found.Add(new("blood-stained-secretions-trend", line, sessions[i].At, [sessions[i].Anchor], frank ? "high" : "moderate", checks.Band(sessions[i].At))
                {
                    Value = blood,
                    Unit = "{count}",
                });
            }

            // Three clear sessions end it.
            if (last.Count == 3 && blood == 0)
            {
                clear.Add((sessions[i].At, _ => true));
            }
        }

        checks.Out.Line(found, clear, since => checks.HasEnded(line, since));
    }
}
