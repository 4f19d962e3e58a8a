namespace AirwayGuard.Core.Orders;

/// <summary>Names the numbers of suction that nothing was read from. What is another quantity's, or a condition's threshold, is not of the order.</summary>
internal static class Leftovers
{
    public static void Find(OrderTextWork work)
    {
        foreach (var amount in work.Amounts)
        {
            var at = amount.NumberAt;
            if (!work.Used.Contains(at) && !work.Layout.IsCondition(at) && work.Layout.About(at) == Topic.Airway && IsOfSuction(work, amount)
                && !SizeMentions.IsPast(work, amount))
            {
                work.LeaveUnread(amount);
            }
        }
    }

    private static bool IsOfSuction(OrderTextWork work, Amount amount)
    {
        var clause = work.ClauseOf(amount.NumberAt);
        return amount.Kind switch
        {
            Term.Hour or Term.Day => false,
            Term.Percent or Term.Millilitre or Term.Second or Term.Minute =>
                !(clause.Has(Term.Oxygen) || clause.Has(Term.Preoxygenate) || clause.Has(Term.Saline) || clause.Has(Term.Instil)),
            Term.OtherUnit => IsPressure(work, amount),
            Term.Number => work.Before(amount.NumberAt, 1, Term.Day) < 0
                && (amount.Bound != Bound.Plain || amount.Low is not null || clause.Has(Term.Suction) || clause.Has(Term.Regulator) || clause.Has(Term.Vacuum) || clause.Has(Term.PressureWord) || clause.Has(Term.Catheter) || clause.Has(Term.Size)),
            _ => true,
        };
    }

    // A unit of pressure that is not listed, or how many passes.
    private static bool IsPressure(OrderTextWork work, Amount amount)
    {
        for (var i = amount.NumberAt; i <= amount.Last; i++)
        {
            if (work.Pieces[i] is { Term: Term.OtherUnit, Value: > 0m })
            {
                return true;
            }
        }

        return false;
    }
}
