namespace AirwayGuard.TestKit.Histories;

/// <summary>One charted value: a row's own or that of one of its components, with the row's time.</summary>
internal sealed record Item(ChartRow Row, string Concept, Charted Value)
{
    public DateTimeOffset At => Row.At;

    public ReferenceNumber? Number { get; } = ReferenceNumber.Read(Value);

    /// <summary>The answer's code, or a text (trimmed, lower case) that equals one.</summary>
    public string? Answer => Value switch
    {
        Charted.Answer a => a.Code,
        Charted.Words w => w.Text.Trim().ToLowerInvariant(),
        _ => null,
    };

    public bool? YesNo => Value is Charted.YesNo y ? y.Value : null;
}

/// <summary>What of a history counts: last versions, nothing entered in error, nothing that begins after the time of judging.</summary>
internal sealed class KnownCharting
{
    private readonly ILookup<string, Item> _byConcept;

    public KnownCharting(History history, DateTimeOffset? asOf)
    {
        History = history;
        AsOf = asOf;
        // Of several versions of one id the one saved last counts, else the one read last.
        var last = history.Rows.Select((row, index) => (row, index)).GroupBy(v => v.row.Id, StringComparer.Ordinal)
            .Select(versions => versions.OrderBy(v => v.row.Saved).ThenBy(v => v.index).Last().row);
        // As of T, what begins later is left out, and what ends later has not ended yet.
        ChartRow[] begun = [.. last.Where(r => r.Status is not ("entered-in-error" or "cancelled") && Begun(r.At)).Select(r => r with { End = Ended(r.End) })
            .OrderBy(r => r.At).ThenBy(r => r.Id, StringComparer.Ordinal)];
        Rows = [.. begun.Where(r => r.About is null)];
        Items = [.. Rows.SelectMany(r => r.Components.Select(c => new Item(r, c.Concept, c.Value)).Prepend(new Item(r, r.Concept, r.Value)))];
        _byConcept = Items.ToLookup(i => i.Concept, StringComparer.Ordinal);
        Elsewhere = [.. begun.Where(r => r.About is not null).Select(r => new Item(r, r.Concept, r.Value))];
        Stays = [.. history.Stays.Where(s => Begun(s.Start)).Select(s => s with { End = Ended(s.End) })];
        Uses = [.. history.Uses.Where(u => Begun(u.Start)).Select(u => u with { End = Ended(u.End) }).OrderBy(u => u.Start)];
        // What was not done, cancelled or entered in error makes no pass.
        Acts = [.. history.Acts.Where(a => a.Status is not ("not-done" or "cancelled" or "entered-in-error") && Begun(a.Start))
            .Select(a => a with { End = Ended(a.End) }).OrderBy(a => a.Start).ThenBy(a => a.Id, StringComparer.Ordinal)];
        Orders = [.. history.Orders.Where(o => Begun(o.Authored))];
        // Files alone are judged at the latest time that is used in them.
        Now = asOf ?? begun.SelectMany(r => new[] { r.At, r.End }).Concat(Acts.SelectMany(a => new[] { a.Start, a.End }))
            .Concat(Orders.Select(o => (DateTimeOffset?)o.Authored)).Concat(Stays.SelectMany(s => new[] { s.Start, s.End }))
            .Concat(Uses.SelectMany(u => new[] { u.Start, u.End })).Max() ?? DateTimeOffset.UnixEpoch;
    }

    public History History { get; }

    public DateTimeOffset? AsOf { get; }

    /// <summary>The time of judging: what falls due later has not fallen due.</summary>
    public DateTimeOffset Now { get; }

    /// <summary>What is charted of devices and places.</summary>
    public IReadOnlyList<Item> Elsewhere { get; }

    public IReadOnlyList<ChartRow> Rows { get; }

    public IReadOnlyList<Item> Items { get; }

    public IReadOnlyList<Stay> Stays { get; }

    public IReadOnlyList<ThingUse> Uses { get; }

    public IReadOnlyList<SuctionAct> Acts { get; }

    public IReadOnlyList<SuctionOrder> Orders { get; }

    public IEnumerable<Item> Of(string concept) => _byConcept[concept];

    public Thing? Thing(string id) => History.Things.FirstOrDefault(t => t.Id == id);

    /// <summary>The end of the encounter that a row names, else of the last one whose period holds the instant.</summary>
    public DateTimeOffset? StayEnd(string? stay, DateTimeOffset at)
    {
        if (stay is not null)
        {
            return Stays.FirstOrDefault(s => s.Id == stay)?.End;
        }

        var around = Stays.Where(s => s.Start <= at && (s.End is null || at < s.End)).ToList();
        return around.Count > 0 && around.TrueForAll(s => s.End is not null) ? around.Max(s => s.End) : null;
    }

    /// <summary>A finding ends when the patient has left the bed: when the last encounter running at the instant has ended.</summary>
    public bool HasLeft(DateTimeOffset since) => StayEnd(null, since) is not null;

    /// <summary>A circumstance holds until it is charted as false or its encounter ends; never charted, it is absent.</summary>
    public bool Holds(string concept, DateTimeOffset at)
    {
        var latest = Of(concept).LastOrDefault(i => i.YesNo is not null && i.At <= at);
        return latest is { YesNo: true } && !(StayEnd(latest.Row.Stay, latest.At) <= at);
    }

    /// <summary>The latest charted value of a concept that is usable, at most so old; of several at one instant the strictest.</summary>
    public Item? Latest(string concept, DateTimeOffset at, TimeSpan held, Func<Item, bool> usable, Func<Item, decimal?> strictness) =>
        Of(concept).Where(i => i.At <= at && at - i.At <= held && usable(i)).OrderBy(i => i.At).ThenBy(strictness).LastOrDefault();

    /// <summary>The encounter of an event: the one it names, else the last one running.</summary>
    public Stay? StayOf(string? stay, DateTimeOffset at) => stay is not null ? Stays.FirstOrDefault(s => s.Id == stay)
        : Stays.LastOrDefault(s => s.Start <= at && (s.End is null || at < s.End));

    /// <summary>The bands possible at an event. Gestational age, once charted, holds for good.</summary>
    public IReadOnlyList<string> Bands(DateTimeOffset at)
    {
        var gestation = Of("gestational-age-at-birth").Where(i => i.Number is { Unit: "wk" or "d" }).OrderBy(i => i.At > at).ThenBy(i => (i.At - at).Duration()).FirstOrDefault()?.Number;
        return ReferenceAge.Possible(History.BirthDate, gestation is null ? null : gestation.Unit == "wk" ? gestation.Amount * 7 : gestation.Amount, at);
    }

    private bool Begun(DateTimeOffset time) => AsOf is null || time <= AsOf;

    private DateTimeOffset? Ended(DateTimeOffset? end) => end is { } e && Begun(e) ? e : null;
}
