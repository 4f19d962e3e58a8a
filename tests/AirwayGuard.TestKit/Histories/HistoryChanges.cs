namespace AirwayGuard.TestKit.Histories;

/// <summary>Ways to change a history whose effect on the findings is known.</summary>
public static class HistoryChanges
{
    // Every limit and plausibility edge of a vacuum in mm[Hg], so that rounding in another unit crosses none.
    private static readonly decimal[] Edges = [20m, 40m, 80m, 100m, 120m, 150m, 200m, 700m, 760m];

    /// <summary>All times moved; the birth date stays.</summary>
    public static History MoveTimes(this History h, Func<DateTimeOffset, DateTimeOffset> move) => h with
    {
        Stays = [.. h.Stays.Select(s => s with { Start = move(s.Start), End = Move(s.End, move) })],
        Uses = [.. h.Uses.Select(u => u with { Start = move(u.Start), End = Move(u.End, move) })],
        Acts = [.. h.Acts.Select(a => a with { Start = move(a.Start), End = Move(a.End, move) })],
        Metrics = [.. h.Metrics.Select(m => m with { Calibrated = Move(m.Calibrated, move) })],
        Rows = [.. h.Rows.Select(r => r with
        {
            At = move(r.At),
            End = Move(r.End, move),
            Saved = move(r.Saved),
            Value = r.Value is Charted.Moment m ? new Charted.Moment(move(m.Time)) : r.Value,
        })],
        Orders = [.. h.Orders.Select(o => o with { Authored = move(o.Authored) })],
    };

    /// <summary>Every instant at which something of a history could be judged.</summary>
    public static IEnumerable<DateTimeOffset> Instants(this History h) =>
        [.. h.Rows.Select(r => r.At), .. h.Acts.Select(a => a.Start), .. h.Orders.Select(o => o.Authored)];

    /// <summary>All versions of a row gone.</summary>
    public static History Without(this History h, string rowId) => h with { Rows = h.Rows.RemoveAll(r => r.Id == rowId) };

    /// <summary>All versions of a row entered in error.</summary>
    public static History InError(this History h, string rowId) =>
        h with { Rows = [.. h.Rows.Select(r => r.Id == rowId ? r with { Status = "entered-in-error" } : r)] };

    /// <summary>What begins after the time gone.</summary>
    public static History Until(this History h, DateTimeOffset time) => h with
    {
        Stays = h.Stays.RemoveAll(s => s.Start > time),
        Uses = h.Uses.RemoveAll(u => u.Start > time),
        Acts = h.Acts.RemoveAll(a => a.Start > time),
        Rows = h.Rows.RemoveAll(r => r.At > time),
        Orders = h.Orders.RemoveAll(o => o.Authored > time),
    };

    /// <summary>Every row's vacuum whose unit is known, in whole mm[Hg] at least 2 from every edge; comparators dropped.</summary>
    public static History AwayFromEdges(this History h) => h.MapVacuums(n =>
    {
        var depth = Math.Round(new ReferenceNumber(n.Amount, CodeOf(n), null).MmHgIn(CodeOf(n))!.Value);
        while (Edges.Any(edge => Math.Abs(depth - edge) < 2m))
        {
            depth += 3m;
        }

        return new(Math.Sign(n.Amount) * depth, "mm[Hg]");
    });

    /// <summary>Every vacuum in mm[Hg] written in another unit instead, to three places.</summary>
    public static History InUnit(this History h, string unit) => h.MapVacuums(n =>
        new(Math.Round(n.Amount * ReferenceNumber.Pressures[CodeOf(n)!] / ReferenceNumber.Pressures[unit], 3), unit));

    private static History MapVacuums(this History h, Func<Charted.Number, Charted.Number> map) => h with
    {
        Rows = [.. h.Rows.Select(r => r.Concept is "vacuum-pressure" or "vacuum-set" && r.Value is Charted.Number n && CodeOf(n) is { } code
            && ReferenceNumber.Pressures.ContainsKey(code) ? r with { Value = map(n) } : r)],
    };

    private static string? CodeOf(Charted.Number number) => ReferenceNumber.Read(number)?.Unit;

    private static DateTimeOffset? Move(DateTimeOffset? time, Func<DateTimeOffset, DateTimeOffset> move) => time is { } t ? move(t) : null;
}
