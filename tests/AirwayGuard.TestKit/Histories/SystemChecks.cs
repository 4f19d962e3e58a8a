namespace AirwayGuard.TestKit.Histories;

/// <summary>
/// open-suction-where-closed-advised over passes and orders, standing on the episode; disconnected-in-lung-injury,
/// clean-technique-in-hospital and suction-soon-after-surfactant over passes.
/// </summary>
internal static class SystemChecks
{
    private const string Open = "open-suction-where-closed-advised";

    private sealed record Judged(string Line, string CannotTellLine, DateTimeOffset At, string Anchor, bool Closed, (Outcome Outcome, decimal? Value, string Unit) Result);

    public static void Judge(Checks checks)
    {
        foreach (var pass in checks.Passes.All)
        {
            JudgeDisconnected(checks, pass);
            JudgeTechnique(checks, pass);
            JudgeSurfactant(checks, pass);
        }

        var systems = checks.Passes.All.Select(p => (At: p.Start, p.Anchor, Line: (string?)null, System: System(checks, p)))
            .Concat(OrderChecks.Judged(checks).Select(o => (At: o.Authored, Anchor: o.Reference, Line: (string?)o.Reference, o.System)))
            .Where(s => s.System is not null)
            .Select(s => new Judged(checks.EpisodeLine(s.At), s.Line ?? checks.EpisodeLine(s.At), s.At, s.Anchor, s.System == "closed", Advised(checks, s.At)));
        foreach (var line in systems.OrderBy(s => s.At).ThenBy(s => s.Anchor, StringComparer.Ordinal).GroupBy(s => s.Line, StringComparer.Ordinal))
        {
            JudgeOpen(checks, line.Key, [.. line]);
        }
    }

    // Closed, or charted as open where both are below, ends it; an order to do so does not.
    private static void JudgeOpen(Checks checks, string line, List<Judged> judged)
    {
        foreach (var unknown in judged.Where(j => !j.Closed && j.Result.Outcome == Outcome.CannotTell))
        {
            checks.Out.CannotTell(Open, unknown.CannotTellLine, unknown.At);
        }

        var found = judged.Where(j => !j.Closed && j.Result.Outcome == Outcome.Breach)
            .Select(j => new Occurrence(Open, line, j.At, [j.Anchor], "moderate", checks.Band(j.At)) { Value = j.Result.Value, Unit = j.Result.Unit });
        var ends = judged.Where(j => !j.Anchor.StartsWith("ServiceRequest/", StringComparison.Ordinal) && (j.Closed || j.Result.Outcome == Outcome.Pass))
            .Select(j => (j.At, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true)));
        checks.Out.Line(found, ends, since => checks.HasEnded(line, since));
    }

    // End-expiratory pressure of 10 or oxygen of 0.60: one that reaches it is enough, one not charted leaves it open.
    private static (Outcome Outcome, decimal? Value, string Unit) Advised(Checks checks, DateTimeOffset at)
    {
        var peep = checks.Known.Latest("peep", at, TimeSpan.FromHours(4), i => i.Number is { Unit: "cm[H2O]" })?.Number;
        var pressure = peep is null ? Outcome.CannotTell : new Criterion(true, 10m).Judge(peep.Amount, peep.Comparator);
        if (pressure == Outcome.Breach)
        {
            return (pressure, peep!.Amount, "cm[H2O]");
        }

        var fraction = Oxygen.Baseline(checks.Known, at);
        var oxygen = fraction is { } f ? new Criterion(true, 0.60m).Judge(f, null) : Outcome.CannotTell;
        return (oxygen == Outcome.Breach ? oxygen : pressure > oxygen ? pressure : oxygen, fraction, "1");
    }

    private static void JudgeDisconnected(Checks checks, Pass pass)
    {
        if (pass.Of(checks.Known, "ventilator-disconnected").Any(i => i.YesNo == true) && checks.Known.Holds("lung-injury", pass.Start))
        {
            checks.Tell("disconnected-in-lung-injury", pass, Outcome.Breach, "high", code: "true");
        }
    }

    // An open pass of an inpatient or in an emergency department.
    private static void JudgeTechnique(Checks checks, Pass pass)
    {
        if (checks.WithPass(pass, "hand-technique", i => i.Answer is "sterile" or "clean")?.Answer == "clean" && System(checks, pass) == "open"
            && checks.Known.StayOf(pass.Stay, pass.Start)?.Class is "IMP" or "EMER")
        {
            checks.Tell("clean-technique-in-hospital", pass, Outcome.Breach, "moderate", code: "clean");
        }
    }

    // Of a neonate, below 8 h since the latest.
    private static void JudgeSurfactant(Checks checks, Pass pass)
    {
        if (checks.Known.Of("surfactant-given").LastOrDefault(i => i.YesNo == true && i.At <= pass.Start) is { } given)
        {
            var hours = (decimal)(pass.Start - given.At).Ticks / TimeSpan.TicksPerHour;
            var outcome = checks.Compare(
                pass.Start, b => b == ReferenceAge.Neonate ? new Criterion(false, 8m, Floor: true) : null, c => c.Judge(hours, null));
            checks.Tell("suction-soon-after-surfactant", pass, outcome, "moderate", hours, "h");
        }
    }

    // Charted with the pass or its session; only what is charted so.
    private static string? System(Checks checks, Pass pass) => checks.WithPass(pass, "suction-system", i => i.Answer is "open" or "closed")?.Answer;
}
