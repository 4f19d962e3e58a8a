namespace AirwayGuard.TestKit.Histories;

/// <summary>suction-ordered-by-clock and vacuum-unit-doubtful over orders.</summary>
internal static class OrderChecks
{
    /// <summary>
    /// The orders judged: active, and of an intent to be carried out, which proposals and plans are not.
    /// </summary>
    public static IEnumerable<SuctionOrder> Judged(Checks checks) => checks.Known.Orders.Where(o =>
        o is { Status: "active", Intent: "order" or "original-order" or "reflex-order" or "filler-order" or "instance-order" });

    /// <summary>Judges all orders and returns how many there are.</summary>
    public static int Judge(Checks checks)
    {
        var orders = Judged(checks).ToList();
        foreach (var order in orders)
        {
            JudgeClock(checks, order);
            JudgeUnit(checks, order);
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

    // A doubtful unit is found in settings and in orders.
    private static void JudgeUnit(Checks checks, SuctionOrder order)
    {
        if (order.Vacuum is { } ordered && ReferenceNumber.Read(ordered) is { } number
            && (number.MmHgIn(number.Unit) is not { } depth || (depth < 20m && depth != 0m) || depth > 760m))
        {
            checks.Out.Single(new("vacuum-unit-doubtful", order.Reference, order.Authored, [order.Reference], "moderate", checks.Band(order.Authored))
            {
                Value = number.Amount,
                Unit = number.Unit,
            });
        }
    }
}
