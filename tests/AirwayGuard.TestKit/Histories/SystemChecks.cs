namespace AirwayGuard.TestKit.Histories;

/// <summary>
/// open-suction-where-closed-advised over passes and orders, standing on the episode; disconnected-in-lung-injury,
/// clean-technique-in-hospital and suction-soon-after-surfactant over passes.
/// </summary>
internal static class SystemChecks
{
    private const string Open = "open-suction-where-closed-advised";

    private sealed record Judged(string Line, string CannotTellLine, DateTimeOffset At, string Anchor, string? System, (Outcome Outcome, decimal? Value, string Unit) Result);

    public static void Judge(Checks checks)
    {
        foreach (var pass in checks.Passes.All)
        {
            JudgeDisconnected(checks, pass);
            JudgeTechnique(checks, pass);
            JudgeSurfactant(checks, pass);
        }

        var systems = checks.Passes.All
            .Select(p => new Judged(checks.EpisodeLine(p.Start), checks.EpisodeLine(p.Start), p.Start, p.Anchor, System(checks, p), Advised(checks, p.Start, Oxygen.Baseline(checks, p, highest: true))))
            .Concat(OrderChecks.Judged(checks).Where(o => o.System is not null)
                .Select(o => new Judged(checks.OrderLine(o.Authored), o.Reference, o.Authored, o.Reference, o.System, Advised(checks, o.Authored, Oxygen.At(checks.Known, o.Authored, highest: true)))));
        foreach (var line in systems.OrderBy(s => s.At).ThenBy(s => s.Anchor, StringComparer.Ordinal).GroupBy(s => s.Line, StringComparer.Ordinal))
        {
            JudgeOpen(checks, line.Key, [.. line]);
        }
    }

    // A closed pass ends it, or both charted below; an order to do so does not. Where nobody says open or closed, nobody can tell
    // whether it was advised.
    private static void JudgeOpen(Checks checks, string line, List<Judged> judged)
    {
        foreach (var unknown in judged.Where(j => j.System switch
        {
            "open" => j.Result.Outcome == Outcome.CannotTell,
            null => j.Result.Outcome == Outcome.Breach,
            _ => false,
        }))
        {
            checks.Out.CannotTell(Open, unknown.CannotTellLine, unknown.At);
        }

        var found = judged.Where(j => j.System == "open" && j.Result.Outcome == Outcome.Breach)
            .Select(j => new Occurrence(Open, line, j.At, [j.Anchor], "moderate", checks.Band(j.At)) { Value = j.Result.Value, Unit = j.Result.Unit });
        var closed = judged.Where(j => !j.Anchor.StartsWith("ServiceRequest/", StringComparison.Ordinal)
            && (j.System == "closed" || (j.System == "open" && j.Result.Outcome == Outcome.Pass))).Select(j => j.At);
        var below = checks.Known.Items.Where(i => i.Concept is "fio2" or "peep" && checks.EpisodeLine(i.At) == line
            && Advised(checks, i.At, Oxygen.At(checks.Known, i.At, highest: true)).Outcome == Outcome.Pass).Select(i => i.At);
        var ends = closed.Concat(below).Select(at => (at, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true)));
        checks.Out.Line(found, ends, since => checks.HasEnded(line, since));
    }

    // End-expiratory pressure of 10 or oxygen of 0.60: one that reaches it is enough, one not charted leaves it open.
    private static (Outcome Outcome, decimal? Value, string Unit) Advised(Checks checks, DateTimeOffset at, decimal? fraction)
    {
        var peep = checks.Known.Latest("peep", at, TimeSpan.FromHours(4), i => i.Number is { Unit: "cm[H2O]" }, i => i.Number!.Amount)?.Number;
        var pressure = peep is null ? Outcome.CannotTell : new Criterion(true, 10m).Judge(peep.Amount, peep.Comparator);
        if (pressure == Outcome.Breach)
        {
            return (pressure, peep!.Amount, "cm[H2O]");
        }

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

    // An open pass of an inpatient or in an emergency department; where one of the two is not charted, nobody can tell.
    private static void JudgeTechnique(Checks checks, Pass pass)
    {
        var system = System(checks, pass);
        var inHospital = InHospital(checks, pass);
        if (checks.WithPass(pass, "hand-technique", i => i.Answer is "sterile" or "clean")?.Answer == "clean" && system != "closed" && inHospital != false)
        {
            checks.Tell("clean-technique-in-hospital", pass, system is null || inHospital is null ? Outcome.CannotTell : Outcome.Breach, "moderate", code: "clean");
        }
    }

    // By the encounter that the pass names, else those running, where they are of one kind.
    private static bool? InHospital(Checks checks, Pass pass)
    {
        var kinds = checks.Known.Stays.Where(s => pass.Stay is not null ? s.Id == pass.Stay : s.Start <= pass.Start && (s.End is null || pass.Start < s.End))
            .Select(s => s.Class is "IMP" or "EMER").Distinct().ToList();
        return kinds.Count == 1 ? kinds[0] : null;
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

    // Charted with the pass or its session; else a closed catheter that the Procedure used.
    private static string? System(Checks checks, Pass pass) => checks.WithPass(pass, "suction-system", i => i.Answer is "open" or "closed")?.Answer
        ?? (pass.Act?.Used.Any(id => checks.Known.Thing(id)?.Kind == "closed-suction-catheter") == true ? "closed" : null);
}
