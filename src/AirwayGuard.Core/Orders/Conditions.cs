namespace AirwayGuard.Core.Orders;

/// <summary>Finds the words of a condition (if SpO2 falls, for visible secretions): what they name is no order, and their numbers are thresholds.</summary>
internal static class Conditions
{
    private const int Reach = 4;

    public static void Mark(List<Piece> pieces, List<Clause> clauses, bool[] isCondition)
    {
        var isUnchecked = Unchecked(pieces);
        foreach (var clause in clauses)
        {
            var isOpen = false;
            for (var i = clause.From; i < clause.To; i++)
            {
                if (isUnchecked[i])
                {
                    isCondition[i] = true;
                    continue;
                }

                if (isOpen && Ends(pieces, clause, i))
                {
                    isOpen = false;
                }
                else if (!isOpen && Opens(pieces, clause, i))
                {
                    isOpen = true;
                }

                isCondition[i] = isOpen;
            }
        }
    }

    // What stands behind an empty box is not said, up to the next box or the end of the sentence.
    private static bool[] Unchecked(List<Piece> pieces)
    {
        var (marks, isEmpty) = (new bool[pieces.Count], false);
        for (var i = 0; i < pieces.Count; i++)
        {
            isEmpty = pieces[i].Term switch
            {
                Term.Unchecked => true,
                Term.Checked or Term.Sentence or Term.ListItem => false,
                _ => isEmpty,
            };
            marks[i] = isEmpty;
        }

        return marks;
    }

    /// <summary>A sign that calls for suction stands close behind.</summary>
    public static bool NamesSign(List<Piece> pieces, Clause clause, int at)
    {
        for (var i = at + 1; i < clause.To && i <= at + Reach; i++)
        {
            if (pieces[i].Term is Term.Sign)
            {
                return true;
            }

            if (pieces[i].Term == Term.Quantity)
            {
                // For ETCO2 rise above 50: a quantity that moves is a sign too.
                return (i + 1 < clause.To && pieces[i + 1].Term is Term.Sign or Term.Below or Term.Above or Term.AtLeast) || pieces[i - 1].Term == Term.Change;
            }
        }

        return false;
    }

    private static bool Opens(List<Piece> pieces, Clause clause, int at) => pieces[at].Term switch
    {
        Term.If or Term.Unless or Term.While or Term.Until => clause.Has(Term.Call) || !(at + 1 < clause.To && pieces[at + 1].Term == Term.Suction),
        Term.For => NamesSign(pieces, clause, at),
        Term.With => at + 1 < clause.To && pieces[at + 1].Term == Term.Sign,
        Term.Indication => true,
        _ => false,
    };

    private static bool Ends(List<Piece> pieces, Clause clause, int at) => pieces[at].Term switch
    {
        // Call if suction is needed too often asks for none.
        Term.Suction => !clause.Has(Term.Call),
        Term.And => at + 1 < clause.To && (pieces[at + 1].Term is Term.If or Term.Only or Term.For or Term.Needed or Term.Every || (at + 2 < clause.To && pieces[at + 2].Term is Term.If or Term.For)),
        Term.Colon => at > clause.From && pieces[at - 1].Term != Term.Indication,
        Term.With or Term.At => HasSize(pieces, clause, at),
        _ => false,
    };

    private static bool HasSize(List<Piece> pieces, Clause clause, int at)
    {
        for (var i = at + 1; i < clause.To && i <= at + Reach; i++)
        {
            if (pieces[i].Term is Term.French or Term.Pressure or Term.Catheter or Term.Closed or Term.Open or Term.Saline)
            {
                return true;
            }
        }

        return false;
    }
}
