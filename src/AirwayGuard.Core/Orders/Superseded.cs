namespace AirwayGuard.Core.Orders;

/// <summary>
/// Finds what is said of an order that ends or was: stop suction at 200 mmHg; old: 14 Fr. Where nothing else of the text asks for suction, a
/// stop is left to be a ban, and what was to be read as it stands.
/// </summary>
internal static class Superseded
{
    private const int ReachOfHeader = 4;

    /// <summary>Marks those pieces as not said.</summary>
    public static void Mark(List<Piece> pieces, bool[] marks)
    {
        var (ranges, hasNew) = (new List<(int From, int To, int Acts)>(), HasNewHeader(pieces));
        for (var from = 0; from < pieces.Count;)
        {
            var to = from;
            while (to < pieces.Count && pieces[to].Term is not (Term.Sentence or Term.ListItem))
            {
                to++;
            }

            if (hasNew && HeaderEnd(pieces, from, to, isNew: false) is >= 0 and var colon)
            {
                Add(from, EndOfOld(pieces, colon, to));
            }

            FindStopped(pieces, from, to, Add);
            from = to + 1;
        }

        var left = pieces.Count(piece => piece.Term == Term.Suction) - ranges.Sum(range => range.Acts);
        foreach (var (from, to, acts) in ranges.Where(range => left > 0 || range.Acts == 0))
        {
            Array.Fill(marks, true, from, to - from);
        }

        void Add(int from, int to)
        {
            var acts = 0;
            for (var i = from; i < to; i++)
            {
                acts += pieces[i].Term == Term.Suction ? 1 : 0;
            }

            ranges.Add((from, to, acts));
        }
    }

    // New: …; current: …; from now on: ….
    private static bool HasNewHeader(List<Piece> pieces)
    {
        for (var i = 0; i < pieces.Count; i++)
        {
            if ((i == 0 || pieces[i - 1].Term is Term.Sentence or Term.ListItem or Term.Comma) && HeaderEnd(pieces, i, pieces.Count, isNew: true) >= 0)
            {
                return true;
            }
        }

        return false;
    }

    // The colon of a heading that says old or new; −1 for none.
    private static int HeaderEnd(List<Piece> pieces, int from, int to, bool isNew)
    {
        var says = false;
        for (var i = from; i < to && i < from + ReachOfHeader; i++)
        {
            switch (pieces[i].Term)
            {
                case Term.Colon:
                    return says ? i : -1;
                case Term.Plain when isNew && pieces[i].Value > 0m:
                case Term.To when isNew:
                case Term.Earlier or Term.From when !isNew:
                case Term.Before when !isNew && i + 1 < to && pieces[i + 1].Term == Term.Colon:
                    says = true;
                    break;
                case Term.Plain or Term.Is or Term.From or Term.Suction or Term.Routinely:
                    break;
                default:
                    return -1;
            }
        }

        return -1;
    }

    // Old and new in one sentence.
    private static int EndOfOld(List<Piece> pieces, int colon, int to)
    {
        for (var i = colon + 1; i < to; i++)
        {
            if (pieces[i - 1].Term == Term.Comma && HeaderEnd(pieces, i, to, isNew: true) >= 0)
            {
                return i;
            }
        }

        return to;
    }

    private static void FindStopped(List<Piece> pieces, int from, int to, Action<int, int> add)
    {
        var begin = from;
        for (var i = from; i <= to; i++)
        {
            if (i < to && pieces[i].Term is not (Term.Comma or Term.Then or Term.Opens or Term.Closes or Term.And) && !(i > begin && pieces[i] is { Term: Term.With or Term.Change } && IsSize(pieces, i, to)))
            {
                continue;
            }

            if (IsStopped(pieces, begin, i))
            {
                add(begin, i);
            }

            begin = i < to && pieces[i].Term is Term.With or Term.Change ? i : i + 1;
        }
    }

    // Use 12 Fr, in a clause that begins with what is stopped.
    private static bool IsSize(List<Piece> pieces, int verb, int to) =>
        verb + 2 < to && pieces[verb - 1].Term is Term.French or Term.Pressure or Term.Number && pieces[verb + 1].Term == Term.Number && pieces[verb + 2].Term is Term.French or Term.Pressure;

    // Stop suction at 200 mmHg; stop 14 Fr; 14 Fr stopped. What is to stop under a condition, or is held at a number, goes on.
    private static bool IsStopped(List<Piece> pieces, int from, int to)
    {
        var (stop, hasTerm, hasAct) = (-1, false, false);
        for (var i = from; i < to; i++)
        {
            var term = pieces[i].Term;
            if (term is Term.If or Term.Until or Term.Unless or Term.For or Term.While or Term.Not)
            {
                return false;
            }

            stop = term == Term.Hold && pieces[i].Value > 0m ? i : stop;
            hasAct |= term == Term.Suction;
            hasTerm |= term is Term.French or Term.Pressure || (hasAct && term is Term.Every or Term.Hourly or Term.TimesADay or Term.Needed);
        }

        if (stop < 0 || !hasTerm)
        {
            return false;
        }

        for (var i = stop + 1; i < to && pieces[i].Term is not (Term.Suction or Term.French or Term.Pressure); i++)
        {
            if (pieces[i].Term is Term.Care or Term.Before or Term.Quantity or Term.Saline or Term.Oxygen or Term.Preoxygenate or Term.Elsewhere or Term.Word)
            {
                // Stop feeds before suction with 12 Fr.
                return false;
            }
        }

        var isFirst = !pieces.GetRange(from, stop - from).Exists(piece => piece.Term is not (Term.Plain or Term.Is or Term.Yes));
        return isFirst ? hasAct || pieces[stop + 1].Term != Term.At : stop == to - 1 || pieces[stop + 1].Term is Term.Plain;
    }
}
