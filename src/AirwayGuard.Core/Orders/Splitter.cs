namespace AirwayGuard.Core.Orders;

/// <summary>Parts pieces into sentences and clauses.</summary>
internal static class Splitter
{
    // How far behind "and" the next act may stand to begin a clause of its own.
    private const int Reach = 3;

    public static (List<Sentence> Sentences, List<Clause> Clauses) Split(List<Piece> pieces)
    {
        var (sentences, clauses) = (new List<Sentence>(), new List<Clause>());
        var sizeAhead = SizeAhead(pieces);
        var saysOrder = (Act: false, Size: false);
        var (first, isItem, from) = (0, false, 0);
        UInt128 terms = 0;
        for (var i = 0; i <= pieces.Count; i++)
        {
            var term = i < pieces.Count ? pieces[i].Term : Term.Sentence;
            var beginsOrder = saysOrder is { Act: true, Size: true } && BeginsOrder(pieces, i, sizeAhead);
            var ends = term is Term.Sentence or Term.ListItem || beginsOrder;
            saysOrder = ends ? default : (saysOrder.Act || term == Term.Suction, saysOrder.Size || term is Term.French or Term.Pressure);
            if (ends || term is Term.Comma or Term.Opens or Term.Closes or Term.Then || (term == Term.And && BeginsAct(pieces, i)))
            {
                Close(i);
                from = term is Term.Then or Term.And ? i : i + 1;
                terms = term is Term.Then or Term.And ? Bit(term) : 0;
                if (ends)
                {
                    if (clauses.Count > first)
                    {
                        sentences.Add(new Sentence(first, clauses.Count - first, isItem));
                    }

                    (first, isItem) = (clauses.Count, term == Term.ListItem || beginsOrder);
                }

                continue;
            }

            terms |= Bit(term);
        }

        return (sentences, clauses);

        void Close(int to)
        {
            if (to > from)
            {
                clauses.Add(new Clause(from, to, terms));
            }
        }
    }

    // By piece: a size stands behind it in the same sentence.
    private static bool[] SizeAhead(List<Piece> pieces)
    {
        var (ahead, has) = (new bool[pieces.Count], false);
        for (var i = pieces.Count - 1; i >= 0; i--)
        {
            ahead[i] = has;
            has = pieces[i].Term is not (Term.Sentence or Term.ListItem) && (has || pieces[i].Term is Term.French or Term.Pressure);
        }

        return ahead;
    }

    // ETT suction q4h 14 Fr and NT suction as needed 10 Fr: the act is named anew, and has a size of its own.
    private static bool BeginsOrder(List<Piece> pieces, int at, bool[] sizeAhead)
    {
        if (at >= pieces.Count || pieces[at].Term is not (Term.And or Term.Comma or Term.Slash or Term.Dash) || !sizeAhead[at] || (pieces[at].Term is Term.Dash or Term.Slash && pieces[at].Touches))
        {
            return false;
        }

        var hasPlace = false;
        for (var i = at + 1; i < pieces.Count && i <= at + Reach; i++)
        {
            if (pieces[i].Term == Term.Suction)
            {
                return hasPlace || SaysMore(pieces, i);
            }

            if (pieces[i] is { Term: Term.Airway, Value: > 0m } && i + 1 < pieces.Count && IsTime(pieces[i + 1].Term))
            {
                // Nasotracheal as needed 10 Fr: another route.
                return true;
            }

            hasPlace |= pieces[i].Term == Term.Airway;
            if (pieces[i].Term is not (Term.Airway or Term.Is or Term.Plain))
            {
                return false;
            }
        }

        return false;
    }

    // Where, or when, stands behind the act; else it is rather the same act spoken of again.
    private static bool SaysMore(List<Piece> pieces, int act)
    {
        for (var i = act + 1; i < pieces.Count && i <= act + Reach && pieces[i].Term is not (Term.Sentence or Term.Comma); i++)
        {
            if (pieces[i].Term == Term.Airway || IsTime(pieces[i].Term))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsTime(Term term) => term is Term.Needed or Term.Every or Term.TimesADay;

    private static UInt128 Bit(Term term) => UInt128.One << (int)term;

    // And ETT q2h.
    private static bool BeginsPlace(List<Piece> pieces, int at)
    {
        at += at < pieces.Count && pieces[at].Term == Term.Is ? 1 : 0;
        return at + 1 < pieces.Count && pieces[at].Term == Term.Airway && pieces[at + 1].Term is Term.Every or Term.Needed or Term.TimesADay or Term.Number or Term.Pressure or Term.At;
    }

    private static bool BeginsAct(List<Piece> pieces, int at)
    {
        if (BeginsPlace(pieces, at + 1))
        {
            return true;
        }

        for (var i = at + 1; i < pieces.Count && i <= at + Reach; i++)
        {
            if (pieces[i].Term is Term.Suction or Term.Care or Term.Assess or Term.Elsewhere or Term.Quantity or Term.Replace or Term.Preoxygenate or Term.Saline or Term.Instil)
            {
                return true;
            }

            if (pieces[i].Term is not (Term.Airway or Term.Word or Term.Is or Term.Not or Term.Closed or Term.Open or Term.Only))
            {
                return false;
            }
        }

        return false;
    }
}
