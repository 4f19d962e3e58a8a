namespace AirwayGuard.Core.Orders;

/// <summary>Parts pieces into sentences and clauses.</summary>
internal static class Splitter
{
    // How far behind "and" the next act may stand to begin a clause of its own.
    private const int Reach = 3;

    public static (List<Sentence> Sentences, List<Clause> Clauses) Split(List<Piece> pieces)
    {
        var (sentences, clauses) = (new List<Sentence>(), new List<Clause>());
        var (first, isItem, from) = (0, false, 0);
        UInt128 terms = 0;
        for (var i = 0; i <= pieces.Count; i++)
        {
            var term = i < pieces.Count ? pieces[i].Term : Term.Sentence;
            var ends = term is Term.Sentence or Term.ListItem;
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

                    (first, isItem) = (clauses.Count, term == Term.ListItem);
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
