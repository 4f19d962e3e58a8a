namespace AirwayGuard.TestKit.Histories;

/// <summary>pass-too-long and preoxygenation-missing over passes; neither stands.</summary>
internal static class PassChecks
{
    private static readonly TimeSpan Wait = TimeSpan.FromHours(2);

    public static void Judge(Checks checks)
    {
        foreach (var session in checks.Passes.Sessions)
        {
            foreach (var pass in session)
            {
                JudgeDuration(checks, pass);
                JudgePreoxygenation(checks, pass, session[0]);
            }
        }
    }

    private static void JudgeDuration(Checks checks, Pass pass)
    {
        const string check = "pass-too-long";
        var line = checks.EpisodeLine(pass.Start);
        var (seconds, comparator) = Duration(checks, pass);
        if (seconds is not { } lasted)
        {
            checks.Out.CannotTell(check, line, pass.Start);
            return;
        }

        // One duration beside several passes: the sum within the limit passes, a mean over it breaches, between nobody can tell.
        var count = pass.Items(checks.Known).Where(i => i.Concept == "pass-count").Select(i => i.Number).OfType<ReferenceNumber>().Select(n => n.Amount).DefaultIfEmpty(1m).Max();
        var share = count > 1 ? lasted / count : lasted;
        // Longer than 15 s, of a neonate or with intracranial pressure monitored 10 s.
        Criterion? tight = checks.Known.Holds("intracranial-pressure-monitored", pass.Start) ? new(false, 10m) : null;
        var outcome = checks.CompareTight(pass.Start, b => new(false, b == ReferenceAge.Neonate ? 10m : 15m), tight, (hasAge, criteria) =>
            !hasAge ? Outcome.CannotTell
            : Criterion.JudgeAll(criteria, c => c.Judge(lasted, comparator)) == Outcome.Pass ? Outcome.Pass
            : Criterion.JudgeAll(criteria, c => c.Judge(share, comparator)) == Outcome.Breach ? Outcome.Breach
            : Outcome.CannotTell);
        if (outcome == Outcome.Pass)
        {
            return;
        }

        if (outcome != Outcome.Breach)
        {
            checks.Out.CannotTell(check, line, pass.Start);
            return;
        }

        var shown = checks.Choices.LongPassShowsTheShare ? share : lasted;
        // High above 20 s; more than, or at least, a number at or over the ceiling breaches.
        var high = new Criterion(false, 20m).Judge(shown, comparator) == Outcome.Breach;
        checks.Out.Single(new(check, line, pass.Start, [pass.Anchor], high ? "high" : "moderate", checks.Band(pass.Start)) { Value = shown, Unit = "s" });
    }

    // The duration charted, else end less start; where they differ by more than a second, the longer.
    private static (decimal? Seconds, string? Comparator) Duration(Checks checks, Pass pass)
    {
        var charted = pass.Items(checks.Known).Where(i => i.Concept == "pass-duration" && Checks.Seconds(i) is not null)
            .Select(i => (Seconds: (decimal?)Checks.Seconds(i), i.Number!.Comparator)).OrderBy(d => d.Seconds).LastOrDefault();
        var period = pass.End is { } end ? (decimal?)((end - pass.Start).Ticks / (decimal)TimeSpan.TicksPerSecond) : null;
        return charted.Seconds is { } c && !(period - c > 1m) ? charted : (period, null);
    }

    private static void JudgePreoxygenation(Checks checks, Pass pass, Pass first)
    {
        const string check = "preoxygenation-missing";
        var due = (pass.End ?? pass.Start) + Wait;
        // Contraindicated, it is not judged; before the wait is over there is no verdict; what is charted as not given is no absence.
        if (checks.Known.Holds("hyperoxygenation-contraindicated", pass.Start) || (checks.Known.AsOf < due && !ChartedOtherwise(checks, pass)))
        {
            return;
        }

        // Judges passes of children and adults: a band without a limit gets no verdict.
        var bands = checks.Known.Bands(pass.Start);
        if (bands.Count > 0 && bands.All(b => b is ReferenceAge.Neonate or ReferenceAge.Infant))
        {
            return;
        }

        // Without an age checks of oxygen cannot tell, whatever is asked for.
        if (bands.Count != 1)
        {
            checks.Out.CannotTell(check, checks.EpisodeLine(pass.Start), pass.Start);
            return;
        }

        // Pre-oxygenation before the first pass of a session serves the others, unless charted otherwise.
        if (Given(checks, pass) || Oxygen.Baseline(checks.Known, pass.Start) >= 0.99m || (pass != first && Given(checks, first) && !ChartedOtherwise(checks, pass)))
        {
            return;
        }

        var at = checks.Choices.MissingIsAtThePass ? pass.Start : due;
        checks.Out.Single(new(check, checks.EpisodeLine(pass.Start), at, [pass.Anchor], "moderate", bands[0]));
    }

    // Charted as given, or 99 % or more within the two minutes before the start.
    private static bool Given(Checks checks, Pass pass) => checks.Known.Items.Any(i =>
        (i is { Concept: "preoxygenation", YesNo: true } && (pass.Rows.Contains(i.Row) || Oxygen.IsJustBefore(i, pass.Start)))
        || (i.Concept is "preoxygenation" or "fio2" && Oxygen.Fraction(i.Number) >= 0.99m && Oxygen.IsJustBefore(i, pass.Start)));

    private static bool ChartedOtherwise(Checks checks, Pass pass) => checks.Known.Of("preoxygenation").Any(i =>
        (pass.Rows.Contains(i.Row) || Oxygen.IsJustBefore(i, pass.Start)) && (i.YesNo == false || i.Value is Charted.NotPerformed || Oxygen.Fraction(i.Number) < 0.99m));
}
