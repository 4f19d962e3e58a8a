namespace AirwayGuard.Core.Orders;

/// <summary>Tells whether saline, oxygen or a system is denied: by the words around it, by an answer behind it, or by a sign.</summary>
internal static class Denials
{
    private const int Reach = 5;

    // Letters that are no word known may be a denial that was mistyped: np saline.
    private const int LongestSlip = 3;

    /// <summary>Denied by the words before it, or by those right behind: saline must not be used; saline: never.</summary>
    public static bool IsDenied(OrderTextWork work, int at, out bool isRoutine)
    {
        isRoutine = false;
        var clause = work.ClauseOf(at);
        var denials = 0;
        for (var i = at - 1; i >= clause.From && i >= at - Reach; i--)
        {
            var term = work.Pieces[i].Term;
            if (term is Term.And or Term.Or && work.Before(i, Reach, Term.Not) < 0)
            {
                break;
            }

            denials += term is Term.Not or Term.Hold or Term.Nothing or Term.Forbidden or Term.CapBehind || (term == Term.Earlier && work.Pieces[i].Value > 0m) ? 1 : 0;
            isRoutine |= term == Term.Routinely;
            if (term == Term.Not && work.Pieces[i].Value == Shade.Nor)
            {
                break;
            }
        }

        var before = denials;
        for (var i = at + 1; i < clause.To && i <= at + Reach && before == 0; i++)
        {
            var term = work.Pieces[i].Term;
            // Oxygen first - no saline: the word is of what stands behind it.
            var isOfNext = term == Term.Not && i + 1 < clause.To && work.Pieces[i + 1].Term is Term.Saline or Term.Preoxygenate or Term.Instil or Term.Suction or Term.Deep or Term.Oxygen;
            if (isOfNext || term is Term.And or Term.Or or Term.With or Term.Suction or Term.If or Term.Only or Term.For || work.Pieces[i] is { Term: Term.Not, Value: Shade.Nor })
            {
                break;
            }

            isRoutine |= term == Term.Routinely;
            denials += term is Term.Not or Term.Nothing or Term.Forbidden or Term.Hold || (term == Term.Earlier && work.Pieces[i].Value > 0m) ? 1 : 0;
        }

        return denials % 2 == 1 || (denials == 0 && IsOfDeniedList(work, at));
    }

    /// <summary>Saline: off; saline = 0; saline - N; saline (none); saline x.</summary>
    public static bool AnswersNo(OrderTextWork work, int at)
    {
        var next = at + 1;
        while (next < work.Pieces.Count && next <= at + 3 && work.Pieces[next].Term is Term.Colon or Term.Is or Term.Dash or Term.Opens or Term.Technique or Term.Catheter or Term.Suction)
        {
            next++;
        }

        if (next >= work.Pieces.Count || (next + 1 < work.Pieces.Count && work.Pieces[next + 1].Term is not (Term.Sentence or Term.ListItem or Term.Comma or Term.Closes or Term.Opens)))
        {
            return next < work.Pieces.Count && work.Pieces[next] is { Term: Term.Number, Value: 0m } zero && !zero.Has(TokenMarks.Doubtful);
        }

        var isApart = next > at + 1;
        return work.Pieces[next] switch
        {
            { Term: Term.Number, Value: 0m } none => !none.Has(TokenMarks.Doubtful),
            { Term: Term.Plain, Value: Shade.Off } or { Term: Term.Nothing or Term.Forbidden or Term.Not } => true,
            { Term: Term.And, Span.Length: 1 } => isApart,
            { Term: Term.Times, Value: 0m, Span.Length: 1 } => true,
            _ => false,
        };
    }

    /// <summary>0 mL saline; 0 saline; (-) saline.</summary>
    public static bool IsNoneGiven(OrderTextWork work, int at)
    {
        var number = at > 1 && work.Pieces[at - 1].Term == Term.Millilitre ? at - 2 : at - 1;
        if (number >= 0 && work.Pieces[number] is { Term: Term.Number, Value: 0m } none && !none.Has(TokenMarks.Doubtful) && !none.Touches)
        {
            return true;
        }

        return at > 2 && work.Pieces[at - 1].Term == Term.Closes && work.Pieces[at - 2].Term == Term.Dash && work.Pieces[at - 3].Term == Term.Opens;
    }

    /// <summary>Np saline, n0 saline, -saline: a denial, a slip or a sign of a list, nobody can tell.</summary>
    public static bool IsUnclear(OrderTextWork work, int at)
    {
        if (at == 0)
        {
            return false;
        }

        var before = work.Pieces[at - 1];
        var isSlip = before.Term == Term.Word && before.Span.Length <= LongestSlip && !before.Touches && work.ClauseOf(at).From < at;
        var isSign = before.Term == Term.Dash && work.Pieces[at].Touches && !before.Touches && (at < 2 || work.Pieces[at - 2].Term is Term.Sentence or Term.Comma or Term.Needed);
        return isSlip || isSign || (before is { Term: Term.Number, Value: 0m, Touches: true } && at > 1 && work.Pieces[at - 2].Term is Term.And or Term.Word);
    }

    /// <summary>No deep suction, saline or bagging.</summary>
    public static bool IsOfDeniedList(OrderTextWork work, int at)
    {
        var clause = work.Layout.ClauseOf[at];
        var (own, before) = (work.Layout.Clauses[clause], clause > 0 ? work.Layout.Clauses[clause - 1] : default);
        return clause > 0 && own.From == at && own.Has(Term.Or) && work.Pieces[at - 1].Term == Term.Comma && before.To == at - 1 && work.Pieces[before.From].Term == Term.Not;
    }
}
