namespace AirwayGuard.TestKit.Histories;

/// <summary>
/// preoxygenation-short and neonate-over-oxygenated over passes and orders, and oxygen-not-returned, which falls due after a session and
/// stands on the episode. Without an age none can tell, whatever is asked for.
/// </summary>
internal static class OxygenChecks
{
    public static void Judge(Checks checks)
    {
        foreach (var pass in checks.Passes.All)
        {
            JudgeShort(checks, pass);
            JudgeNeonate(checks, pass);
        }

        foreach (var order in OrderChecks.Judged(checks))
        {
            JudgeNeonate(checks, order);
        }

        JudgeReturn(checks);
    }

    // What was charted before the first pass of a session holds for the others, unless it is charted otherwise.
    private static void JudgeShort(Checks checks, Pass pass)
    {
        var first = checks.Passes.Sessions.Single(s => s.Contains(pass))[0];
        var isDenied = pass.Of(checks.Known, "preoxygenation").Any(i => i.YesNo == false || i.Value is Charted.NotPerformed);
        var charted = Length(checks, pass) ?? (first.Start < pass.Start && !isDenied ? Length(checks, first) : null);
        if (charted is { } length)
        {
            var outcome = checks.Compare(
                pass.Start, b => b is ReferenceAge.Child or ReferenceAge.Adult ? new Criterion(false, 30m, Floor: true) : null,
                c => c.Judge(length.Seconds, length.Comparator), neverStrictest: true);
            checks.Tell("preoxygenation-short", pass, outcome, "low", length.Seconds, "s");
        }
    }

    // Of a length and a period the shorter, each the longest of its kind.
    private static (decimal Seconds, string? Comparator)? Length(Checks checks, Pass pass)
    {
        var kinds = checks.Known.Items.Where(i => (pass.Rows.Contains(i.Row) || Oxygen.IsJustBefore(i, pass.Start)) && Lasted(i, pass.Start) is not null)
            .GroupBy(i => i.Concept, StringComparer.Ordinal)
            .Select(kind => kind.Select(i => (Seconds: Lasted(i, pass.Start)!.Value, Comparator: i.Concept == "preoxygenation" ? null : i.Number!.Comparator)).MaxBy(l => l.Seconds)).ToList();
        return kinds.Count == 0 ? null : kinds.MinBy(l => l.Seconds);
    }

    // Of a period only what lies before the pass is pre-oxygenation; contract §3 judges where a period of it is charted.
    private static decimal? Lasted(Item item, DateTimeOffset start) => item switch
    {
        { Concept: "preoxygenation-duration" } => Checks.Seconds(item),
        { Concept: "preoxygenation", Row.End: { } end } when item.At < start && (item.YesNo == true || item.Number is not null) =>
            (decimal)((end > start ? start : end) - item.At).TotalSeconds,
        _ => null,
    };

    // No oxygen before is known, or it was given and nobody says how much: nobody can tell. Nothing charted as given, nothing judged.
    private static void JudgeNeonate(Checks checks, Pass pass)
    {
        var (from, to) = (pass.Start - TimeSpan.FromMinutes(2), pass.End ?? pass.Start);
        var around = checks.Known.Items.Where(i => i.Concept is "fio2" or "preoxygenation" && i.At <= to && (i.Row.End ?? i.At) >= from).ToList();
        var highest = around.Max(i => Oxygen.Fraction(i.Number));
        var given = highest is not null || around.Concat(pass.Of(checks.Known, "preoxygenation")).Any(i => i is { Concept: "preoxygenation", YesNo: true });
        var baseline = Oxygen.Baseline(checks, pass);
        if (given || baseline is null)
        {
            var more = highest - baseline;
            checks.Tell("neonate-over-oxygenated", pass, More(checks, pass.Start, more), "high", more, "1");
        }
    }

    private static void JudgeNeonate(Checks checks, SuctionOrder order)
    {
        if (order.Preoxygenation is { } charted && Oxygen.Fraction(ReferenceNumber.Read(charted)) is { } ordered)
        {
            var more = ordered - Oxygen.At(checks.Known, order.Authored);
            checks.Tell("neonate-over-oxygenated", order, More(checks, order.Authored, more), "high", more, "1");
        }
    }

    private static Outcome More(Checks checks, DateTimeOffset at, decimal? more) => checks.Compare(
        at, b => b == ReferenceAge.Neonate ? new Criterion(false, 0.10m) : null, c => more is { } m ? c.Judge(m, null) : Outcome.CannotTell, neverStrictest: true);

    // An fio2 later than 10 min, of a neonate 5, and at most 2 h after the session, more than 0.02 over the oxygen it started from.
    private static void JudgeReturn(Checks checks)
    {
        const string check = "oxygen-not-returned";
        // What is charted to pre-oxygenate a later pass does not show that oxygen was left raised.
        var fio2 = checks.Known.Of("fio2").Where(i => Oxygen.Fraction(i.Number) is not null && !Oxygen.IsPreoxygenation(checks, i)).ToList();
        var baselines = new Dictionary<Occurrence, decimal>(ReferenceEqualityComparer.Instance);
        foreach (var line in checks.Passes.Sessions.GroupBy(s => checks.EpisodeLine(s[^1].Start), StringComparer.Ordinal))
        {
            foreach (var session in line)
            {
                // The time runs from the end of the last pass, and the age is that of then.
                var over = session[^1].Over(checks.Known);
                var bands = checks.Known.Bands(over);
                // Before the birth no band has a limit, and nothing falls due.
                var due = over.AddMinutes(bands.Count == 0 ? 0 : bands.Contains(ReferenceAge.Neonate, StringComparer.Ordinal) ? 5 : 10);
                var charted = fio2.Where(i => i.At > due && i.At <= over.AddHours(2)).ToList();
                if (bands.Count != 1 || charted.Count == 0 || Oxygen.Baseline(checks.Known, session[0].Start) is not { } baseline)
                {
                    if (checks.HasWaited(over))
                    {
                        checks.Out.CannotTell(check, line.Key, due);
                    }

                    continue;
                }

                if (charted.LastOrDefault(i => Oxygen.Fraction(i.Number) - baseline > 0.02m) is { } last)
                {
                    baselines.Add(
                        new(check, line.Key, due, [], "moderate", bands[0]) { Value = (decimal)(last.At - over).TotalMinutes, Unit = "min", Until = last.At }, baseline);
                }
            }

            var back = fio2.Select(i => (i.At, (Func<IReadOnlyList<Occurrence>, bool>)(spell => Oxygen.Fraction(i.Number) - baselines[spell[^1]] <= 0.02m)));
            checks.Out.Line(baselines.Keys.Where(o => o.Line == line.Key).OrderBy(o => o.At), back, since => checks.HasEnded(line.Key, since));
        }
    }
}
