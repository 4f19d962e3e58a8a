namespace AirwayGuard.TestKit.Histories;

/// <summary>
/// preoxygenation-short and neonate-over-oxygenated over passes and orders, and oxygen-not-returned, which falls due after a session and
/// stands on the episode. Without an age none can tell, whatever is asked for.
/// </summary>
internal static class OxygenChecks
{
    public static void Judge(Checks checks)
    {
        var used = new HashSet<Item>();
        foreach (var pass in checks.Passes.All)
        {
            JudgeShort(checks, pass, used);
            JudgeNeonate(checks, pass);
        }

        foreach (var order in OrderChecks.Judged(checks))
        {
            JudgeNeonate(checks, order);
        }

        JudgeReturn(checks);
    }

    // A period or a duration charted, the longest; a row is judged once.
    private static void JudgeShort(Checks checks, Pass pass, HashSet<Item> used)
    {
        var mine = checks.Known.Items.Where(i => (pass.Rows.Contains(i.Row) || Oxygen.IsJustBefore(i, pass.Start)) && Lasted(i) is not null && !used.Contains(i)).ToList();
        if (mine.Count == 0)
        {
            return;
        }

        used.UnionWith(mine);
        var seconds = mine.Max(i => Lasted(i)!.Value);
        var outcome = checks.Compare(
            pass.Start, b => b is ReferenceAge.Child or ReferenceAge.Adult ? new Criterion(false, 30m, Floor: true) : null, c => c.Judge(seconds, null), neverStrictest: true);
        checks.Tell("preoxygenation-short", pass, outcome, "low", seconds, "s");
    }

    private static decimal? Lasted(Item item) => item switch
    {
        { Concept: "preoxygenation-duration" } => Checks.Seconds(item),
        { Concept: "preoxygenation", Row.End: { } end } when item.YesNo != false && item.Value is not Charted.NotPerformed => (decimal)(end - item.At).TotalSeconds,
        _ => null,
    };

    // Nothing charted as given, nothing judged.
    private static void JudgeNeonate(Checks checks, Pass pass)
    {
        var (from, to) = (pass.Start - TimeSpan.FromMinutes(2), pass.End ?? pass.Start);
        var highest = checks.Known.Items.Where(i => i.Concept is "fio2" or "preoxygenation" && i.At <= to && (i.Row.End ?? i.At) >= from).Max(i => Oxygen.Fraction(i.Number));
        if (highest is { } given)
        {
            var more = given - Oxygen.Baseline(checks.Known, pass.Start);
            checks.Tell("neonate-over-oxygenated", pass, More(checks, pass.Start, more), "high", more, "1");
        }
    }

    private static void JudgeNeonate(Checks checks, SuctionOrder order)
    {
        if (order.Preoxygenation is { } charted && Oxygen.Fraction(ReferenceNumber.Read(charted)) is { } ordered)
        {
            // Oxygen holds for 4 h.
            var more = ordered - Oxygen.Fraction(checks.Known.Latest("fio2", order.Authored, TimeSpan.FromHours(4), i => Oxygen.Fraction(i.Number) is not null)?.Number);
            checks.Tell("neonate-over-oxygenated", order, More(checks, order.Authored, more), "high", more, "1");
        }
    }

    private static Outcome More(Checks checks, DateTimeOffset at, decimal? more) => checks.Compare(
        at, b => b == ReferenceAge.Neonate ? new Criterion(false, 0.10m) : null, c => more is { } m ? c.Judge(m, null) : Outcome.CannotTell, neverStrictest: true);

    // An fio2 later than 10 min, of a neonate 5, and at most 2 h after the session, more than 0.02 over the oxygen it started from.
    private static void JudgeReturn(Checks checks)
    {
        const string check = "oxygen-not-returned";
        var baselines = new Dictionary<Occurrence, decimal>(ReferenceEqualityComparer.Instance);
        foreach (var line in checks.Passes.Sessions.GroupBy(s => checks.EpisodeLine(s[0].Start), StringComparer.Ordinal))
        {
            foreach (var session in line)
            {
                var over = session.Max(p => p.Over(checks.Known));
                var bands = checks.Known.Bands(session[0].Start);
                var due = over.AddMinutes(bands is [ReferenceAge.Neonate] ? 5 : 10);
                var charted = checks.Known.Of("fio2").Where(i => Oxygen.Fraction(i.Number) is not null && i.At > due && i.At <= over.AddHours(2)).ToList();
                if (bands.Count != 1 || charted.Count == 0 || Oxygen.Baseline(checks.Known, session[0].Start) is not { } baseline)
                {
                    if (checks.HasWaited(over))
                    {
                        checks.Out.CannotTell(check, line.Key, session[0].Start);
                    }

                    continue;
                }

                if (charted.LastOrDefault(i => Oxygen.Fraction(i.Number) - baseline > 0.02m) is { } last)
                {
                    baselines.Add(
                        new(check, line.Key, due, [], "moderate", bands[0]) { Value = (decimal)(last.At - over).TotalMinutes, Unit = "min", Until = last.At }, baseline);
                }
            }

            var back = checks.Known.Of("fio2").Where(i => Oxygen.Fraction(i.Number) is not null)
                .Select(i => (i.At, (Func<IReadOnlyList<Occurrence>, bool>)(spell => Oxygen.Fraction(i.Number) - baselines[spell[^1]] <= 0.02m)));
            checks.Out.Line(baselines.Keys.Where(o => o.Line == line.Key).OrderBy(o => o.At), back, since => checks.HasEnded(line.Key, since));
        }
    }
}
