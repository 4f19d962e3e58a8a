namespace AirwayGuard.TestKit.Histories;

/// <summary>catheter-too-wide and catheter-does-not-fit over passes and orders; both stand on the airway in use.</summary>
internal static class CatheterCheck
{
    private const string TooWide = "catheter-too-wide", DoesNotFit = "catheter-does-not-fit";

    public static void Judge(Checks checks)
    {
        Judge(checks, TooWide, b => new Criterion(!checks.Strict, b is ReferenceAge.Neonate or ReferenceAge.Infant ? 0.70m : 0.50m));
        Judge(checks, DoesNotFit, _ => new Criterion(true, 1m));
    }

    // 0.70 of the tube to the first birthday, then 0.50: reached or exceeded by one rule set, exceeded by the other. What fills the
    // tube does not fit at any age.
    private static void Judge(Checks checks, string check, Func<string, Criterion> limit)
    {
        var found = new List<Occurrence>();
        var fitting = new List<(string Line, DateTimeOffset At)>();
        foreach (var pass in checks.Passes.All)
        {
            var airway = checks.Airways.InUse(pass.Start);
            var line = airway?.Line ?? checks.EpisodeLine(pass.Start);
            var catheter = airway is null ? null : InUse(checks, pass, airway);
            Take(checks, check, limit, found, fitting, line, pass.Start, pass.Anchor, airway, catheter, line);
        }

        foreach (var order in OrderChecks.Judged(checks))
        {
            // Only an order that names a catheter is judged by it.
            if (order.Catheter is { } named && Fr(ReferenceNumber.Read(named)) is { } catheter)
            {
                // It is held against the airway in use now. What was found against one before stood on that one, and ends with it; what nobody
                // could tell of it then is asked no longer.
                var since = checks.Airways.Since(order.Authored);
                foreach (var before in since.SkipLast(1).Where(a => Compare(checks, limit, a, catheter, order.Authored).Outcome == Outcome.Breach))
                {
                    Take(checks, check, limit, found, [], before.Line, order.Authored, order.Reference, before, catheter, order.Reference);
                }

                var airway = since.Count > 0 ? since[^1] : null;
                Take(checks, check, limit, found, [], airway?.Line ?? Checks.Patientwide, order.Authored, order.Reference, airway, catheter, order.Reference);
            }
        }

        // A fitting catheter, charted without a pass, ends it.
        foreach (var item in checks.Known.Of("catheter-size").Where(i => checks.Passes.Of(i.Row) is null))
        {
            if (checks.Airways.InUse(item.At) is { } airway && Fr(item.Number) is { } catheter && Compare(checks, limit, airway, catheter, item.At).Outcome == Outcome.Pass)
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
        Checks checks, string check, Func<string, Criterion> limit, List<Occurrence> found, List<(string, DateTimeOffset)> fitting, string line, DateTimeOffset at, string anchor,
        AirwaySpan? airway, decimal? catheter, string cannotTellLine)
    {
        var (outcome, ratio) = airway is null || catheter is null ? (Outcome.CannotTell, 0m) : Compare(checks, limit, airway, catheter.Value, at);
        switch (outcome)
        {
            case Outcome.Breach:
                found.Add(new(check, line, at, [anchor], ratio > 0.70m || check == DoesNotFit ? "high" : "moderate", checks.Band(at))
                {
                    // Held against an airway that came into use after it was written, an order is ended by what is later than that.
                    Until = airway!.Start > at ? airway.Start : null,
                    Value = ratio,
                    Unit = "1",
                    WithheldBy = check == TooWide && ratio >= 1m ? DoesNotFit : null,
                });
                break;
            case Outcome.Pass:
                fitting.Add((line, at));
                break;
            default:
                checks.Out.CannotTell(check, cannotTellLine, at);
                break;
        }
    }

    // French sizes are thirds of a millimetre; both sides times 3 × mm, so that nothing is rounded.
    private static (Outcome Outcome, decimal Ratio) Compare(Checks checks, Func<string, Criterion> limit, AirwaySpan airway, decimal french, DateTimeOffset at) =>
        checks.Airways.InnerDiameter(airway, at < airway.Start ? airway.Start : at) is { } diameter
            ? (checks.Compare(at, limit, c => new Criterion(c.Inclusive, c.Limit * 3m * diameter).Judge(french, null)), french / (3m * diameter))
            : (Outcome.CannotTell, 0m);

    // Tube, cannula and catheter hold until changed or the airway ends.
    public static decimal? InUse(Checks checks, Pass pass, AirwaySpan airway)
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

    public static decimal? Fr(ReferenceNumber? number) => number is { Unit: "[Ch]", Amount: > 0 } ? number.Amount : null;
}
