namespace AirwayGuard.Core.Orders;

/// <summary>Names the numbers of suction that nothing was read from. What is another quantity's, or a condition's threshold, is not of the order.</summary>
internal static class Leftovers
{
    public static void Find(OrderTextWork work)
    {
        var size = Term.Number;
        foreach (var amount in work.Amounts)
        {
            var at = amount.NumberAt;
            size = amount.Kind is Term.Pressure or Term.French ? amount.Kind : size;
            if (!work.Used.Contains(at) && IsAskedUnder(work, amount, size))
            {
                work.LeaveUnread(amount);
                continue;
            }

            if (!work.Used.Contains(at) && !work.Layout.IsCondition(at) && work.Layout.About(at) == Topic.Airway && IsOfSuction(work, amount)
                && !SizeMentions.IsPast(work, amount))
            {
                work.LeaveUnread(amount);
            }
        }

        FindUnits(work);
    }

    // For plugs 200: a number under a condition that names nothing measured may be the vacuum, or the size, that is asked for then.
    private static bool IsAskedUnder(OrderTextWork work, Amount amount, Term size)
    {
        var at = amount.NumberAt;
        var fits = size == Term.French ? amount.High is >= 5m and <= 24m : amount.High is >= 40m and <= 760m;
        if (!fits || amount.Kind != Term.Number || !work.Layout.IsCondition(at) || work.Layout.AboutSize(at) is not (Topic.Airway or Topic.Tube))
        {
            return false;
        }

        for (var i = amount.First - 1; i >= work.ClauseOf(at).From && work.Layout.IsCondition(i); i--)
        {
            if (work.Pieces[i].Term is not (Term.If or Term.For or Term.With or Term.While or Term.Unless or Term.Indication or Term.Sign or Term.Is or Term.Plain or Term.Word or Term.To or Term.At or Term.Colon or Term.Dash or Term.TooLittle or Term.Wanted or Term.And or Term.Or))
            {
                return false;
            }
        }

        return true;
    }

    // A unit without a number that was read: a hundred and fifty mmHg.
    private static void FindUnits(OrderTextWork work)
    {
        var measured = new HashSet<int>();
        foreach (var amount in work.Amounts)
        {
            for (var i = amount.First; i <= amount.Last; i++)
            {
                measured.Add(i);
            }
        }

        for (var i = 0; i < work.Pieces.Count; i++)
        {
            if (work.Pieces[i].Term is Term.Pressure or Term.French && !measured.Contains(i) && !work.Layout.IsCondition(i) && work.Layout.AboutSize(i) == Topic.Airway
                && work.Before(i, 4, Term.Hundred, Term.Word) is >= 0 and var before && work.Pieces[before].Span.Length > 2)
            {
                work.LeaveUnread(i);
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
                !IsOfAnswer(clause) && !(clause.From > 0 && work.Pieces[clause.From - 1].Term == Term.Opens && IsOfAnswer(work.Layout.Clauses[Math.Max(0, work.Layout.ClauseOf[amount.NumberAt] - 1)])),
            Term.OtherUnit => IsPressure(work, amount),
            Term.Number => work.Before(amount.NumberAt, 1, Term.Day) < 0 && !(work.Behind(amount.Last, 1, Term.Plain) is >= 0 and var half && work.Pieces[half].Value == Shade.HalfOfDay)
                && (amount.IsDoubtful || amount.Bound != Bound.Plain || (amount.High is >= 40m and <= 760m && !work.Layout.IsNamed(amount.NumberAt)) || amount.Low is not null || clause.Has(Term.Suction) || clause.Has(Term.Regulator) || clause.Has(Term.Vacuum) || clause.Has(Term.PressureWord) || clause.Has(Term.Catheter) || clause.Has(Term.Size)),
            _ => true,
        };
    }

    // Of saline or oxygen: how much, how long; also in brackets behind them.
    private static bool IsOfAnswer(Clause clause) => clause.Has(Term.Oxygen) || clause.Has(Term.Preoxygenate) || clause.Has(Term.Saline) || clause.Has(Term.Instil);

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
