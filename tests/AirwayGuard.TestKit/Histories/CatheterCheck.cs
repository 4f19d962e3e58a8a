namespace AirwayGuard.TestKit.Histories;

/// <summary>catheter-too-wide over passes and orders; it stands on the airway in use.</summary>
internal static class CatheterCheck
{
    private const string Check = "catheter-too-wide";

    public static void Judge(Checks checks)
    {
        var found = new List<Occurrence>();
        var fitting = new List<(string Line, DateTimeOffset At)>();
        foreach (var pass in checks.Passes.All)
        {
            var airway = checks.Airways.InUse(pass.Start);
            var line = airway?.Line ?? checks.EpisodeLine(pass.Start);
            var catheter = airway is null ? null : InUse(checks, pass, airway);
            Take(checks, found, fitting, line, pass.Start, pass.Anchor, airway, catheter, line);
        }

        foreach (var order in OrderChecks.Judged(checks))
        {
            // Only an order that names a catheter is judged by it.
            if (order.Catheter is { } named && Fr(ReferenceNumber.Read(named)) is { } catheter)
            {
                // An order written before the tube is for the first one after.
                var airway = checks.Airways.InUse(order.Authored) ?? checks.Airways.FirstAfter(order.Authored);
                Take(checks, found, [], airway?.Line ?? Checks.Patientwide, order.Authored, order.Reference, airway, catheter, order.Reference);
            }
        }

        // A fitting catheter, charted without a pass, ends it.
        foreach (var item in checks.Known.Of("catheter-size").Where(i => checks.Passes.Of(i.Row) is null))
        {
            if (checks.Airways.InUse(item.At) is { } airway && Fr(item.Number) is { } catheter && Compare(checks, airway, catheter, item.At).Outcome == Outcome.Pass)
            {
                fitting.Add((airway.Line, item.At));
            }
        }

        foreach (var line in found.GroupBy(o => o.Line, StringComparer.Ordinal))
        {
            // So does another tube: the airway ended.
            var ended = checks.Choices.EndedLineClears && checks.Airways.OfLine(line.Key).End is not null;
            checks.Out.Line(
                line.OrderBy(o => o.At).ThenBy(o => o.About[0], StringComparer.Ordinal),
                fitting.Where(f => f.Line == line.Key).Select(f => (f.At, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true))),
                _ => ended);
        }
    }

    private static void Take(
        Checks checks, List<Occurrence> found, List<(string, DateTimeOffset)> fitting, string line, DateTimeOffset at, string anchor,
        AirwaySpan? airway, decimal? catheter, string cannotTellLine)
    {
        var (outcome, ratio) = airway is null || catheter is null ? (Outcome.CannotTell, 0m) : Compare(checks, airway, catheter.Value, at);
        switch (outcome)
        {
            case Outcome.Breach:
                found.Add(new(Check, line, at, [anchor], ratio > 0.70m ? "high" : "moderate", checks.Band(at))
                {
                    Value = ratio,
                    Unit = "1",
                });
                break;
            case Outcome.Pass:
                fitting.Add((line, at));
                break;
            default:
                checks.Out.CannotTell(Check, cannotTellLine, at);
                break;
        }
    }

    // 0.70 of the tube to the first birthday, then 0.50: reached or exceeded by one rule set, exceeded by the other. French sizes are thirds of a millimetre.
    private static (Outcome Outcome, decimal Ratio) Compare(Checks checks, AirwaySpan airway, decimal french, DateTimeOffset at)
    {
        if (checks.Airways.InnerDiameter(airway, at < airway.Start ? airway.Start : at) is not { } diameter || checks.BandsToCompare(at) is not { Count: > 0 } bands)
        {
            return (Outcome.CannotTell, 0m);
        }

        var criteria = bands.Select(b => new Criterion(!checks.Strict, b is ReferenceAge.Neonate or ReferenceAge.Infant ? 0.70m : 0.50m));
        // Both sides times 3 × mm, so that nothing is rounded.
        var outcome = Criterion.JudgeAll(criteria, c => new Criterion(c.Inclusive, c.Limit * 3m * diameter).Judge(french, null));
        return (outcome, french / (3m * diameter));
    }

    // Tube, cannula and catheter hold until changed or the airway ends.
    private static decimal? InUse(Checks checks, Pass pass, AirwaySpan airway)
    {
        // Of several charted with one pass, or at one instant, the widest.
        if (pass.Items(checks.Known).Where(i => i.Concept == "catheter-size").Max(i => Fr(i.Number)) is { } own)
        {
            return own;
        }

        var charted = checks.Known.Of("catheter-size").Where(i => Fr(i.Number) is not null).Select(i => (i.At, Rank: 0, Size: Fr(i.Number)!.Value));
        var named = checks.Passes.All.SelectMany(p => Named(checks, p).Select(size => (At: p.Start, Rank: 1, Size: size)));
        var used = charted.Concat(named).Where(c => c.At >= airway.Start && c.At <= pass.Start).OrderBy(c => c.At).ThenBy(c => c.Rank).ThenBy(c => c.Size).ToList();
        var mine = Named(checks, pass).ToList();
        return mine.Count > 0 ? mine[0] : used.Count > 0 ? used[^1].Size : null;
    }

    private static IEnumerable<decimal> Named(Checks checks, Pass pass) => (pass.Act?.Used ?? [])
        .Select(checks.Known.Thing).Where(t => t?.Kind is "suction-catheter" or "closed-suction-catheter" && t.French is not null).Select(t => t!.French!.Value);

    private static decimal? Fr(ReferenceNumber? number) => number is { Unit: "[Ch]", Amount: > 0 } ? number.Amount : null;
}
