namespace AirwayGuard.Core.Orders;

/// <summary>Tells how often gear is changed, or something is listened to, from how often is suctioned.</summary>
internal static class GearIntervals
{
    private const int Near = 2, Far = 5;

    // Gear lasts a day or longer; an act beside the word change is rather asked for more often.
    private const decimal LeastOfGear = 24m;

    public static bool IsOne(OrderTextWork work, Interval interval)
    {
        var clause = work.ClauseOf(interval.First);
        if (!clause.Has(Term.Suction) && work.Before(interval.First, 1, Term.Sign) >= 0)
        {
            // Breath sounds q2h.
            return true;
        }

        if (work.Before(interval.First, Far, Term.Catheter, Term.Gear) is >= 0 and var gear && IsNew(work, gear))
        {
            // A new catheter daily.
            return true;
        }

        var change = work.Before(interval.First, Near, Term.Change, Term.Replace);
        change = change >= 0 ? change : work.Behind(interval.Last, Near, Term.Change, Term.Replace);

        // Change to q4h is of how often.
        var isChanged = change >= 0 && !clause.Has(Term.From) && !clause.Has(Term.Arrow) && work.Behind(change, Far, Term.To) < 0;
        return isChanged && (interval.Hours >= LeastOfGear || !clause.Has(Term.Suction));
    }

    // New 12 Fr catheter.
    private static bool IsNew(OrderTextWork work, int gear)
    {
        var at = gear - 1;
        while (at > work.ClauseOf(gear).From && work.Pieces[at].Term is Term.Number or Term.French or Term.Closed or Term.Open)
        {
            at--;
        }

        return at >= 0 && work.Pieces[at] is { Term: Term.Plain, Value: Shade.New };
    }
}
