namespace AirwayGuard.TestKit.Histories;

/// <summary>vitals-missing-around-pass, desaturation-with-suction and heart-rate-event-with-suction over passes.</summary>
internal static class VitalsChecks
{
    public static readonly HashSet<string?> Reactions = new(StringComparer.Ordinal)
    {
        "none", "desaturation", "bradycardia", "tachycardia", "arrhythmia", "bleeding", "hypotension", "hypertension", "bronchospasm",
    };

    private static readonly TimeSpan Around = TimeSpan.FromMinutes(5);

    public static void Judge(Checks checks)
    {
        foreach (var pass in checks.Passes.All)
        {
            JudgeMissing(checks, pass);
            JudgeSaturation(checks, pass);
            JudgeHeart(checks, pass);
        }
    }

    // What is charted at the start is from before it.
    private static List<Item> Before(Checks checks, Pass pass, string concept) =>
        [.. Readable(checks, concept).Where(i => i.At <= pass.Start && pass.Start - i.At <= Around)];

    private static List<Item> During(Checks checks, Pass pass, string concept) =>
        [.. Readable(checks, concept).Where(i => i.At > pass.Start && i.At <= pass.Over(checks.Known) + Around)];

    private static IEnumerable<Item> Readable(Checks checks, string concept) =>
        checks.Known.Of(concept).Where(i => i.Number?.Unit == (concept == "spo2" ? "%" : "/min"));

    private static IEnumerable<string?> Reacted(Checks checks, Pass pass) =>
        pass.Of(checks.Known, "suction-reaction").Select(i => i.Answer).Where(Reactions.Contains);

    // Both within 5 min before and both within 5 min after the end.
    private static void JudgeMissing(Checks checks, Pass pass)
    {
        var over = pass.Over(checks.Known);
        var complete = new[] { "spo2", "heart-rate" }.All(c => Before(checks, pass, c).Count > 0 && During(checks, pass, c).Exists(i => i.At >= over));
        if (checks.HasWaited(over) && !complete)
        {
            checks.Tell("vitals-missing-around-pass", pass, Outcome.Breach, "low");
        }
    }

    private static void JudgeSaturation(Checks checks, Pass pass)
    {
        const string check = "desaturation-with-suction";
        // Of several at the last instant before, the highest: no fall hides.
        var before = Before(checks, pass, "spo2").GroupBy(i => i.At).LastOrDefault()?.Max(i => i.Number!.Amount);
        var nadir = During(checks, pass, "spo2").Min(i => i.Number?.Amount);
        var reactions = Reacted(checks, pass).ToList();
        if (before - nadir >= 5m)
        {
            checks.Tell(check, pass, Outcome.Breach, "high", before - nadir, "%");
            return;
        }

        // Below 90, of a neonate 80, from there or from nobody knows where.
        var low = nadir is not { } lowest ? Outcome.None : checks.Compare(
            pass.Start, b => new Criterion(false, b == ReferenceAge.Neonate ? 80m : 90m, Floor: true),
            c => c.Judge(lowest, null) == Outcome.Breach && !(before < c.Limit) ? Outcome.Breach : Outcome.Pass);
        if (low == Outcome.Breach)
        {
            checks.Tell(check, pass, low, "high", nadir, "%");
        }
        else if (reactions.Contains("desaturation"))
        {
            checks.Tell(check, pass, Outcome.Breach, "high", code: "desaturation");
        }
        else if (low == Outcome.CannotTell || (nadir is not null && before is null) || (nadir is null && reactions.Count == 0))
        {
            checks.Tell(check, pass, Outcome.CannotTell, "high");
        }
    }

    private static void JudgeHeart(Checks checks, Pass pass)
    {
        const string check = "heart-rate-event-with-suction";
        var rates = Readable(checks, "heart-rate").Where(i => i.At >= pass.Start && i.At <= pass.Over(checks.Known) + Around).Select(i => i.Number!.Amount).ToList();
        var reactions = Reacted(checks, pass).ToList();
        // Adults below 50 or above 150, neonates below 100; other ages have no limit. Neither a rate nor a reaction: nobody can tell.
        var slow = rates.Count == 0 && reactions.Count > 0 ? Outcome.None : checks.Compare(
            pass.Start, b => b switch { ReferenceAge.Adult => new(false, 50m, Floor: true), ReferenceAge.Neonate => new(false, 100m, Floor: true), _ => null },
            c => rates.Count == 0 ? Outcome.CannotTell : c.Judge(rates.Min(), null));
        var fast = rates.Count == 0 ? Outcome.None : checks.Compare(
            pass.Start, b => b == ReferenceAge.Adult ? new Criterion(false, 150m) : null, c => c.Judge(rates.Max(), null));
        if (slow == Outcome.Breach || fast == Outcome.Breach)
        {
            checks.Tell(check, pass, Outcome.Breach, "high", slow == Outcome.Breach ? rates.Min() : rates.Max(), "/min");
        }
        else if (reactions.Find(r => r is "bradycardia" or "tachycardia" or "arrhythmia") is { } reaction)
        {
            checks.Tell(check, pass, Outcome.Breach, "high", code: reaction);
        }
        else if (slow == Outcome.CannotTell || fast == Outcome.CannotTell)
        {
            checks.Tell(check, pass, Outcome.CannotTell, "high");
        }
    }
}
