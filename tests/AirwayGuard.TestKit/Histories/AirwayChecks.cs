namespace AirwayGuard.TestKit.Histories;

/// <summary>
/// tube-diameter-unknown and safe-depth-not-on-file over airways with a pass, catheter-narrower-than-useful over passes and
/// tube-changed-since-catheter-chosen over orders.
/// </summary>
internal static class AirwayChecks
{
    public static void Judge(Checks checks)
    {
        var orders = OrderChecks.Judged(checks).Where(o => Ordered(o) is not null).ToList();
        foreach (var airway in checks.Airways.All)
        {
            var passes = checks.Passes.All.Where(p => airway.Covers(p.Start)).ToList();
            JudgeDiameter(checks, airway, passes, orders);
            JudgeLengths(checks, airway, passes);
        }

        foreach (var pass in checks.Passes.All)
        {
            JudgeNarrow(checks, pass);
        }

        // Younger than the order that names a catheter for it is the latest airway that came into use since; it ends with that.
        foreach (var order in orders)
        {
            if (checks.Airways.All.Where(a => a.Start > order.Authored && a.Start <= checks.Known.Now).MaxBy(a => a.Start) is { } younger)
            {
                checks.Out.Single(
                    new("tube-changed-since-catheter-chosen", order.Reference, order.Authored, [order.Reference], "moderate", checks.Band(order.Authored)),
                    younger.End <= checks.Known.Now);
            }
        }
    }

    // Judged once, at the first pass or catheter order at which it is not known: a cannula without a diameter may be put in later. What
    // is charted while the check waits is on file by then.
    private static void JudgeDiameter(Checks checks, AirwaySpan airway, List<Pass> passes, List<SuctionOrder> orders)
    {
        var needs = passes.Select(p => (At: p.Start, Over: p.Over(checks.Known), Anchor: p.Anchor))
            .Concat(orders.Where(o => checks.Airways.Since(o.Authored).Contains(airway)).Select(o => Later(o.Authored, airway.Start)).Select(at => (At: at, Over: at, Anchor: "order"))).OrderBy(s => s.At).ToList();
        var first = needs.Find(n => checks.Airways.InnerDiameter(airway, n.At, onFileThen: true) is null);
        var known = Instants(checks, airway).Where(at => checks.Airways.InnerDiameter(airway, at, onFileThen: true) is not null).ToList();
        if (first.Anchor is null || !checks.HasWaited(first.Over) || known.Exists(at => at > first.At && at <= first.Over.AddHours(2)))
        {
            return;
        }

        var missing = new Occurrence("tube-diameter-unknown", airway.Line, first.At, airway.Row is { } row ? [row.Reference] : [], "moderate", checks.Band(first.At));
        var ended = checks.Choices.EndedLineClears && airway.End is not null;
        checks.Out.Line([missing], known.Select(at => (at, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true))), _ => ended);
    }

    // Both lengths are needed at the first pass, or while the check waits; the later of the two ends it. Silent in both rule sets.
    private static void JudgeLengths(Checks checks, AirwaySpan airway, List<Pass> passes)
    {
        if (!checks.Choices.SilentToo || passes.Count == 0 || !checks.HasWaited(passes[0].Over(checks.Known)))
        {
            return;
        }

        var charted = new[] { "tube-length", "adapter-length" }
            .Select(concept => checks.Known.Of(concept).FirstOrDefault(i => airway.Covers(i.At) && DepthChecks.Centimetres(i.Number) is not null)?.At).ToList();
        if (!charted.TrueForAll(at => at <= passes[0].Over(checks.Known).AddHours(2)))
        {
            var missing = new Occurrence(
                "safe-depth-not-on-file", airway.Line, passes[0].Start, airway.Row is { } row ? [row.Reference] : [], "low", checks.Band(passes[0].Start));
            var ends = charted.Contains(null) ? [] : new[] { (charted.Max()!.Value, (Func<IReadOnlyList<Occurrence>, bool>)(_ => true)) };
            checks.Out.Line([missing], ends, _ => airway.End is not null);
        }
    }

    // Below 0.33 of the tube while the secretions of the pass are charted as thick.
    private static void JudgeNarrow(Checks checks, Pass pass)
    {
        if (!pass.Of(checks.Known, "secretion-consistency").Any(i => i.Answer == "thick"))
        {
            return;
        }

        var airway = checks.Airways.InUse(pass.Start);
        var ratio = airway is null ? null : CatheterCheck.InUse(checks, pass, airway) / (3m * checks.Airways.InnerDiameter(airway, pass.Start));
        checks.Tell("catheter-narrower-than-useful", pass, ratio is { } r ? new Criterion(false, 0.33m, Floor: true).Judge(r, null) : Outcome.CannotTell, "low", ratio, "1");
    }

    private static DateTimeOffset Later(DateTimeOffset one, DateTimeOffset other) => one > other ? one : other;

    private static decimal? Ordered(SuctionOrder order) => order.Catheter is { } named ? CatheterCheck.Fr(ReferenceNumber.Read(named)) : null;

    // Every instant at which the diameter in use may have become known.
    private static IEnumerable<DateTimeOffset> Instants(Checks checks, AirwaySpan airway) => checks.Known.Items
        .Where(i => i.Concept is "tube-inner-diameter" or "inner-cannula-diameter" or "inner-cannula-in-place").Select(i => i.At)
        .Concat(checks.Known.Uses.SelectMany(u => new[] { u.Start, u.End }).OfType<DateTimeOffset>())
        .Where(airway.Covers).Distinct().Order();
}
