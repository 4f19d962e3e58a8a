namespace AirwayGuard.TestKit.Histories;

/// <summary>
/// suction-ordered-by-clock, ordered-vacuum-above-ceiling, vacuum-unit-doubtful and order-not-machine-readable over orders, and
/// suctioned-despite-order-not-to over passes.
/// </summary>
internal static class OrderChecks
{
    /// <summary>
    /// The orders judged: active, and of an intent to be carried out, which proposals and plans are not.
    /// </summary>
    public static IEnumerable<SuctionOrder> Judged(Checks checks) => checks.Known.Orders.Where(o =>
        o.Status == "active" && IsMeant(o));

    /// <summary>Judges all orders and returns how many there are.</summary>
    public static int Judge(Checks checks)
    {
        var orders = Judged(checks).ToList();
        foreach (var order in orders)
        {
            JudgeClock(checks, order);
            JudgeUnit(checks, order);
            JudgeVacuum(checks, order);
            JudgeWords(checks, order);
        }

        foreach (var pass in checks.Passes.All.Where(p => IsForbidden(checks, p)))
        {
            checks.Tell("suctioned-despite-order-not-to", pass, Outcome.Breach, "high");
        }

        return orders.Count;
    }

    private static void JudgeClock(Checks checks, SuctionOrder order)
    {
        const string check = "suction-ordered-by-clock";
        if (order.DoNotPerform)
        {
            return;
        }

        // As needed beside a timing bounds how often, so it is not by the clock; a timing alone is. Where neither is said, nobody
        // can tell.
        if (order.AsNeeded != true && order.Frequency is not null)
        {
            checks.Out.Single(new(check, order.Reference, order.Authored, [order.Reference], "moderate", checks.Band(order.Authored)) { Code = "by-clock" });
        }
        else if (order.AsNeeded != true && checks.Choices.UntimedOrderIsCannotTell)
        {
            checks.Out.CannotTell(check, order.Reference, order.Authored);
        }
    }

    // Up to the upper value is allowed, so it is judged as a number; that "less than" leaves it out counts against that number only.
    private static void JudgeVacuum(Checks checks, SuctionOrder order)
    {
        // What forbids the whole act allows no vacuum.
        if (order.DoNotPerform || order.Vacuum is not { } ordered || ReferenceNumber.Read(ordered) is not { } number)
        {
            return;
        }

        var outcome = checks.CompareTight(
            order.Authored, band => VacuumChecks.CeilingOf(checks, band), VacuumChecks.MonitoredSince(checks, order.Authored),
            (hasAge, criteria) => JudgeVacuum(order, number, hasAge, criteria));
        checks.Tell(
            "ordered-vacuum-above-ceiling", order, outcome, "high", number.MmHgIn(number.Unit) ?? Math.Abs(number.Amount), number.Unit is null ? null : "mm[Hg]");
    }

    private static Outcome JudgeVacuum(SuctionOrder order, ReferenceNumber number, bool hasAge, IReadOnlyList<Criterion> criteria) =>
        number.Amount == 0 && (order.Mode is "off" or "full-line") ? Outcome.None
            : !hasAge || (number.Amount == 0 && order.Mode is null) ? Outcome.CannotTell
            : number.Amount == 0 ? Outcome.Pass
            : IsDoubtful(number) ? Settings.IsOverInEveryUnit(number with { Comparator = null }, criteria) ? Outcome.Breach : Outcome.CannotTell
            : Criterion.JudgeAll(criteria, c => number.Comparator == "<" && number.MmHgIn(number.Unit) == c.Limit ? Outcome.Pass
                : Settings.Compare([c], number with { Comparator = null }));

    // A mode of the regulator is not read from an order, and is high; an order of which nothing at all is read, not even a reason, is found too.
    private static void JudgeWords(Checks checks, SuctionOrder order)
    {
        var says = order.DoNotPerform || order.AsNeeded is not null || order.Frequency is not null || order.Vacuum is not null || order.Catheter is not null
            || order.System is not null || order.Depth is not null || order.Saline is not null || order.Preoxygenation is not null || order.Reason is not null || order.Mode is not null;
        var mode = order.Mode is "full-line" or "intermittent";
        if (mode || !says)
        {
            checks.Tell("order-not-machine-readable", order, Outcome.Breach, mode ? "high" : "low");
        }
    }

    // By an active order issued before the pass, or where there are orders to suction and all of them are on hold.
    private static bool IsForbidden(Checks checks, Pass pass)
    {
        var issued = checks.Known.Orders.Where(o => IsMeant(o) && o.Authored < pass.Start).ToList();
        var toSuction = issued.Where(o => !o.DoNotPerform && o.Status is "active" or "on-hold").ToList();
        return issued.Exists(o => o is { DoNotPerform: true, Status: "active" }) || (toSuction.Count > 0 && toSuction.TrueForAll(o => o.Status == "on-hold"));
    }

    public static bool IsMeant(SuctionOrder order) => order.Intent is "order" or "original-order" or "reflex-order" or "filler-order" or "instance-order";

    private static bool IsDoubtful(ReferenceNumber number) =>
        number.MmHgIn(number.Unit) is not { } depth || (depth < 20m && depth != 0m) || depth > 760m;

    // A doubtful unit is found in settings and in orders.
    private static void JudgeUnit(Checks checks, SuctionOrder order)
    {
        if (order.Vacuum is { } ordered && ReferenceNumber.Read(ordered) is { } number && IsDoubtful(number))
        {
            checks.Out.Single(new("vacuum-unit-doubtful", order.Reference, order.Authored, [order.Reference], "moderate", checks.Band(order.Authored))
            {
                Value = number.Amount,
                Unit = number.Unit,
            });
        }
    }
}
