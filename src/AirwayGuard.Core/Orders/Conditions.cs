namespace AirwayGuard.Core.Orders;

/// <summary>Finds the words of a condition (if SpO2 falls, for visible secretions): what they name is no order, and their numbers are thresholds.</summary>
internal static class Conditions
{
    private const int Reach = 4;

    public static void Mark(List<Piece> pieces, List<Amount> amounts, List<Clause> clauses, bool[] isCondition)
    {
        var isUnchecked = Unchecked(pieces);
        var starts = Escalations.Starts(pieces, amounts);
        foreach (var clause in clauses)
        {
            var (isOpen, opener, isOwn) = (false, 0, false);
            for (var i = clause.From; i < clause.To; i++)
            {
                if (isUnchecked[i])
                {
                    isCondition[i] = true;
                    continue;
                }

                // A number directly behind the condition's word, or of what is measured, is a threshold.
                isOwn |= pieces[i].Term is Term.Quantity or Term.PressureWord or Term.Call or Term.Hour or Term.Below or Term.Above;
                if (isOpen && (Ends(pieces, clause, i) || (starts[i] && i > opener + 1 && !isOwn)))
                {
                    isOpen = false;
                }
                else if (!isOpen && Opens(pieces, clause, i))
                {
                    (isOpen, opener, isOwn) = (true, i, pieces[i].Term is Term.While or Term.Until);
                }

                isCondition[i] = isOpen;
            }
        }
    }

    // What stands behind an empty box is not said, up to the next box or the end of the sentence; before it, where a sentence ends with a box. Nor
    // is what was done before, or to others, from where that is said.
    private static bool[] Unchecked(List<Piece> pieces)
    {
        var marks = new bool[pieces.Count];
        for (var from = 0; from < pieces.Count;)
        {
            var to = from;
            while (to < pieces.Count && pieces[to].Term is not (Term.Sentence or Term.ListItem))
            {
                to++;
            }

            var isBefore = to > from && pieces[to - 1].Term is Term.Unchecked or Term.Checked && pieces[from].Term is not (Term.Unchecked or Term.Checked);
            MarkSentence(pieces, from, to, isBefore, marks);
            from = to + 1;
        }

        Superseded.Mark(pieces, marks);
        return marks;
    }

    private static void MarkSentence(List<Piece> pieces, int from, int to, bool isBefore, bool[] marks)
    {
        var (isEmpty, isPast, isReplaced, begin) = (false, false, false, from);
        for (var i = from; i < to; i++)
        {
            isReplaced = pieces[i] is { Term: Term.History, Value: > 0m } || (isReplaced && !EndsReplaced(pieces, i, to));
            isPast |= pieces[i] is { Term: Term.History, Value: 0m } || IsDone(pieces, i, from);
            if (pieces[i].Term is Term.Unchecked or Term.Checked)
            {
                isEmpty = pieces[i].Term == Term.Unchecked && !isBefore;
                for (var label = begin; isBefore && pieces[i].Term == Term.Unchecked && label < i; label++)
                {
                    marks[label] = true;
                }

                begin = i + 1;
            }

            marks[i] |= isEmpty || isPast || isReplaced;
        }
    }

    // Replaces order of 2/3 (14 Fr): now 12 Fr. What it replaces ends where the new order is named as such.
    private static bool EndsReplaced(List<Piece> pieces, int at, int to) => pieces[at].Term switch
    {
        Term.Closes => true,
        Term.Comma or Term.Colon or Term.Dash => pieces[at - 1].Term != Term.History && at + 1 < to && pieces[at + 1] is { Term: Term.Suction } or { Term: Term.Plain, Value: > 0m },
        _ => false,
    };

    // Suctioned three times today; what is to be suctioned, or must not be, is no past.
    private static bool IsDone(List<Piece> pieces, int at, int from) =>
        pieces[at] is { Term: Term.Suction, Value: > 0m } && !(at > from && pieces[at - 1].Term is Term.Is or Term.Not or Term.Forbidden);

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
        // New gloves each time; each time with a new catheter.
        Term.If when pieces[at].Value == Shade.EachTime => at + 1 < clause.To && pieces[at + 1].Term is not Term.With,
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
