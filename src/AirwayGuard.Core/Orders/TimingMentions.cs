namespace AirwayGuard.Core.Orders;

/// <summary>Finds how often suction is asked for, whether as needed, and whether by the clock.</summary>
internal static class TimingMentions
{
    private const int Near = 4, Far = 40;

    // What a word of need, or a condition, may be said of.
    private static readonly Term[] Said =
    [
        Term.Suction, Term.Saline, Term.Instil, Term.Preoxygenate, Term.Oxygen, Term.Deep, Term.Hold, Term.Forbidden, Term.Call, Term.Care, Term.Assess, Term.Elsewhere, Term.Quantity, Term.Depth,
    ];

    public static void Find(OrderTextWork work)
    {
        foreach (var interval in work.Intervals)
        {
            if (!work.Layout.IsCondition(interval.First) && work.Layout.IsOfAirway(interval.Last) && !work.IsOfUnknown(interval.First) && (interval.IsBound || !IsDenied(work, interval.First)) && !IsReplaced(work, interval) && !GearIntervals.IsOne(work, interval))
            {
                work.Mentions.Add(new Mention(
                    OrderField.Interval, interval.First, interval.Span, High: interval.Hours, Bound: interval.IsBound ? Bound.AtMost : interval.IsFloor ? Bound.AtLeast : Bound.Plain));
            }
        }

        for (var i = 0; i < work.Pieces.Count; i++)
        {
            switch (work.Pieces[i].Term)
            {
                case Term.Needed when !work.Layout.IsCondition(i) && IsOfSuction(work, i) && !work.IsOfUnknown(i) && !IsPast(work, i):
                    var isDenied = work.Before(i, 1, Term.Not) >= 0 || (work.Behind(i, 2, Term.Not, Term.Nothing) is >= 0 and var no && work.Pieces[no - 1].Term == Term.Colon);
                    work.Mentions.Add(new Mention(OrderField.AsNeeded, i, work.Pieces[i].Span, Says: !isDenied));
                    break;
                case Term.If or Term.For or Term.With or Term.Indication or Term.Unless when work.Layout.IsCondition(i) && BeginsCondition(work, i):
                    FindCondition(work, i);
                    break;
                case Term.Sign when IsCallForSuction(work, i):
                    work.Mentions.Add(new Mention(OrderField.AsNeeded, i, work.Pieces[i].Span, IsConditional: true));
                    break;
                case Term.Scheduled or Term.Routinely when work.Layout.IsOfAirway(i) && !work.Layout.IsCondition(i):
                    FindScheduled(work, i);
                    break;
            }
        }
    }

    // Previously as needed; change as needed to q2h.
    private static bool IsPast(OrderTextWork work, int at) => work.Before(at, 2, Term.Earlier) >= 0
        || (work.Behind(at, 4, Term.To, Term.Arrow) is >= 0 and var to && (work.IntervalStarts.Contains(to + 1) || work.IntervalStarts.Contains(to + 2))
            && (work.Pieces[to].Term == Term.Arrow || work.ClauseOf(at).Has(Term.Change)));

    private static bool BeginsCondition(OrderTextWork work, int at) => at == work.ClauseOf(at).From || !work.Layout.IsCondition(at - 1);

    private static void FindScheduled(OrderTextWork work, int at)
    {
        var isDenied = work.Before(at, Near, Term.Not, Term.Hold) >= 0 || work.Behind(at, 2, Term.Not, Term.Nothing) >= 0;
        if (work.Pieces[at].Term == Term.Scheduled || isDenied)
        {
            work.Mentions.Add(new Mention(OrderField.ByClock, at, work.Pieces[at].Span, Says: !isDenied));
        }
    }

    // The need is of what stands nearest before it; "with saline as needed" leaves a suction by the clock by the clock.
    private static bool IsOfSuction(OrderTextWork work, int at)
    {
        if (work.Layout.About(at) is not (Topic.Airway or Topic.Tube or Topic.Unknown))
        {
            return false;
        }

        var said = SaidOfCare(work, work.Before(at, Far, Said), at);
        return said < 0 ? !IsOfAnswer(work, at) : work.Pieces[said].Term is Term.Suction or Term.Elsewhere or Term.Quantity or Term.Depth
            || (work.Before(said, Far, Term.Suction) >= 0 && !work.ClauseOf(at).Has(Term.Every) && !work.ClauseOf(at).Has(Term.TimesADay) && work.Pieces[said].Term != Term.Assess);
    }

    // A clause of saline or oxygen alone, with its own need.
    private static bool IsOfAnswer(OrderTextWork work, int at)
    {
        var clause = work.ClauseOf(at);
        return !clause.Has(Term.Suction) && (clause.Has(Term.Saline) || clause.Has(Term.Preoxygenate) || clause.Has(Term.Instil) || clause.Has(Term.Care)) && work.Behind(at, Far, Term.Saline, Term.Instil, Term.Preoxygenate, Term.Care) >= 0;
    }

    private static void FindCondition(OrderTextWork work, int at)
    {
        if (work.Layout.About(at) is Topic.Other or Topic.Elsewhere && !IsLeading(work, at))
        {
            return;
        }

        // If tolerated is no need; nor is a sign that is not to be waited for.
        if (work.Behind(at, 2, Term.Proviso) >= 0 || (work.Pieces[at].Term != Term.Unless && work.Before(at, Near, Term.Not) is >= 0 and var not && work.Behind(not, at - not - 1, Term.Suction) < 0))
        {
            return;
        }

        var clause = work.ClauseOf(at);
        var said = SaidBefore(work, at);
        var isOurs = said >= 0
            ? work.Pieces[said].Term == Term.Suction && work.Before(said, Near, Term.Not, Term.Hold) < 0
            : !HasSize(work, clause, at) && !clause.Has(Term.Call) && (!Ahead(work, at) || clause.Has(Term.Suction) || NextActs(work, at));
        if (work.Pieces[at].Term == Term.Unless)
        {
            var act = work.Before(at, Far, Term.Suction);
            isOurs = act >= 0 && (work.Before(act, Near, Term.Not, Term.Hold) >= 0 || work.Behind(act, Near, Term.Not, Term.Forbidden) >= 0)
                && work.Behind(act, Far, Term.Hour, Term.Until) < 0;
        }

        if (isOurs)
        {
            work.Mentions.Add(new Mention(OrderField.AsNeeded, at, Whole(work, at), IsConditional: true));
        }
    }

    // Of what the condition is said; words of another condition are not.
    private static int SaidBefore(OrderTextWork work, int at)
    {
        var said = work.Before(at, Far, Said);
        while (said >= 0 && work.Layout.IsCondition(said))
        {
            said = work.Before(said, Far, Said);
        }

        return SaidOfCare(work, said, at);
    }

    // With turns and as needed; before feeds: other care says when, and what is said behind it is of the act before.
    private static int SaidOfCare(OrderTextWork work, int said, int at)
    {
        while (said > 0 && work.Pieces[said].Term == Term.Care && work.Before(said, Far, Term.Suction) >= 0
            && (work.Before(said, 2, Term.Before) >= 0 || (work.Before(said, 2, Term.With) >= 0 && (work.Pieces[at] is { Term: Term.If, Value: Shade.OnlyIf } || work.Behind(said, at - said - 1, Term.And, Term.Only) >= 0))))
        {
            said = work.Before(said, Far, Said);
        }

        return said;
    }

    // A condition that stands first is of the act behind it, whatever was spoken of before.
    private static bool IsLeading(OrderTextWork work, int at) => at == work.ClauseOf(at).From && NextActs(work, at);

    private static bool NextActs(OrderTextWork work, int at)
    {
        var next = work.Layout.ClauseOf[at] + 1;
        return next < work.Layout.Clauses.Count && work.Layout.Clauses[next].Has(Term.Suction) && work.Layout.SentenceOf[work.Layout.Clauses[next].From] == work.Layout.SentenceOf[at];
    }

    // Where something else is done under the condition, it is no need of suction.
    private static bool Ahead(OrderTextWork work, int at)
    {
        var next = work.Layout.ClauseOf[at] + 1;
        if (next >= work.Layout.Clauses.Count || work.Layout.SentenceOf[work.Layout.Clauses[next].From] != work.Layout.SentenceOf[at] || at != work.ClauseOf(at).From)
        {
            return false;
        }

        var clause = work.Layout.Clauses[next];
        return clause.Has(Term.Call) || clause.Has(Term.Hold) || clause.Has(Term.Saline) || clause.Has(Term.Preoxygenate) || clause.Has(Term.Care) || clause.Has(Term.Assess);
    }

    private static bool HasSize(OrderTextWork work, Clause clause, int at)
    {
        for (var i = Math.Max(clause.From, at - Far); i < at; i++)
        {
            if (work.Pieces[i].Term is Term.Pressure or Term.French or Term.Closed or Term.Open)
            {
                return work.Pieces[i].Term is not Term.Closed || !clause.Has(Term.Catheter);
            }
        }

        return false;
    }

    private static TextSpan Whole(OrderTextWork work, int at)
    {
        var (clause, last) = (work.ClauseOf(at), at);
        while (last + 1 < clause.To && work.Layout.IsCondition(last + 1))
        {
            last++;
        }

        return TextSpan.Over(work.Pieces[at].Span, work.Pieces[last].Span);
    }

    // Coarse breath sounds: suction.
    private static bool IsCallForSuction(OrderTextWork work, int at)
    {
        var colon = work.Behind(at, Near, Term.Colon);
        return colon >= 0 && at == work.ClauseOf(at).From && colon + 1 < work.Pieces.Count && work.Pieces[colon + 1].Term == Term.Suction;
    }

    private static bool IsDenied(OrderTextWork work, int at) =>
        (work.Before(at, Near, Term.Not, Term.Earlier) is >= 0 and var not && work.Behind(not, at - not - 1, Term.And, Term.Suction, Term.Saline, Term.Preoxygenate) < 0)
        || IsDeniedAct(work, at);

    // Do not suction q2h; no routine suction q2h; suction is not needed q2h.
    private static bool IsDeniedAct(OrderTextWork work, int at)
    {
        if (work.Before(at, 2, Term.Forbidden) >= 0)
        {
            return true;
        }

        if (work.Before(at, 2, Term.Suction) is not (>= 0 and var act))
        {
            return false;
        }

        var before = act - 1;
        while (before >= work.ClauseOf(at).From && work.Pieces[before].Term is Term.Routinely or Term.Scheduled or Term.Airway or Term.Is)
        {
            before--;
        }

        return before >= work.ClauseOf(at).From && work.Pieces[before].Term == Term.Not;
    }

    // Stop q2h; change q2h to q4h.
    private static bool IsReplaced(OrderTextWork work, Interval interval)
    {
        if (work.Before(interval.First, Near, Term.Hold) is >= 0 and var hold && work.Behind(hold, interval.First - hold - 1, Term.If, Term.Saline, Term.Until, Term.And) < 0)
        {
            return true;
        }

        // q2h suction cancelled.
        if (work.Behind(interval.Last, 3, Term.Hold) is >= 0 and var ended && work.Behind(ended, 3, Term.If, Term.Until) < 0)
        {
            return true;
        }

        var clause = work.ClauseOf(interval.First);
        var changes = clause.Has(Term.Change) || clause.Has(Term.Replace) || clause.Has(Term.From) || clause.Has(Term.Arrow);
        if (work.Behind(interval.Last, 1, Term.Change) is >= 0 and var becomes && work.IntervalStarts.Contains(becomes + 1))
        {
            return true;
        }

        return changes && work.Behind(interval.Last, 5, Term.To, Term.With, Term.For, Term.Arrow) is >= 0 and var to
            && (work.IntervalStarts.Contains(to + 1) || work.IntervalStarts.Contains(to + 2) || work.Behind(to, 1, Term.Needed) >= 0);
    }
}
