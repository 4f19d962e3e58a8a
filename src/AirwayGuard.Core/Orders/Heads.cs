namespace AirwayGuard.Core.Orders;

/// <summary>Which pieces name an act, a place or a quantity, and so say what their clause is about.</summary>
internal sealed class Heads(List<Piece> pieces, List<Amount> amounts, bool[] isCondition, Func<int, bool> speaksOfSuction)
{
    // A place may stand this far before the act, or behind it: suction the patient's trach.
    private const int ReachBefore = 8, ReachBehind = 6;

    private readonly bool _speaks = pieces.Exists(piece => piece.Term is Term.Suction or Term.Elsewhere);

    private readonly HashSet<int> _sizes = [.. amounts.Where(amount => amount.Kind is Term.French or Term.Pressure).Select(amount => amount.NumberAt)];

    /// <summary>The act of suctioning, not its gear.</summary>
    public bool IsAct(int at) => pieces[at].Term == Term.Airway || pieces[at].Term == Term.Suction && !(at + 1 < pieces.Count && pieces[at + 1].Term == Term.Gear);

    /// <summary>What the piece says that its clause is about; unknown where it says nothing of it.</summary>
    public Topic TopicAt(int at, Clause clause)
    {
        if (isCondition[at])
        {
            return Topic.Unknown;
        }

        return pieces[at].Term switch
        {
            Term.Suction => OfSuction(at, clause),
            Term.Elsewhere => (clause.Has(Term.Suction) && IsPlaceOfSuction(at, clause)) || IsPlaceMore(at, clause) ? Topic.Unknown : Topic.Elsewhere,
            Term.Care => at > clause.From && pieces[at - 1].Term is Term.With or Term.Before && clause.Has(Term.Suction) ? Topic.Unknown : Topic.Other,
            Term.Quantity => Topic.Other,
            Term.Assess or Term.Replace or Term.Call => Topic.Other,
            Term.Change or Term.Hold => IsOfGear(at, clause) ? Topic.Other : Topic.Unknown,
            Term.Catheter => clause.Has(Term.Suction) || IsHandled(at, clause) ? Topic.Unknown : OfGear(at, clause),
            Term.Vacuum => clause.Has(Term.Suction) || IsHandled(at, clause) ? Topic.Unknown : OfGear(at, clause),
            Term.Airway => OfPlace(at, clause),
            _ => Topic.Unknown,
        };
    }

    // The tube by its name; where a line begins with it, what is said behind the colon is of its suction.
    private Topic OfPlace(int at, Clause clause)
    {
        if (clause.Has(Term.Suction) || clause.Has(Term.Catheter) || clause.Has(Term.Assess) || clause.Has(Term.Replace) || clause.Has(Term.Care))
        {
            return Topic.Unknown;
        }

        if (at == clause.From && at + 1 < clause.To && pieces[at + 1].Term == Term.Colon && speaksOfSuction(at))
        {
            return Topic.Airway;
        }

        if (pieces[clause.From].Term == Term.Then && at <= clause.From + 2 && at == clause.To - 1 && _speaks)
        {
            // Suction mouth, then trach.
            return Topic.Airway;
        }

        // Mouth as needed, trach q2h 220 mmHg: what is asked of the tube where suction is spoken of is suction.
        var asks = clause.Has(Term.Needed) || clause.Has(Term.Every) || clause.Has(Term.TimesADay) || clause.Has(Term.Hourly) || clause.Has(Term.Pressure);
        return asks && _speaks && !clause.Has(Term.Quantity) && !clause.Has(Term.Change) && !clause.Has(Term.Word) && !clause.Has(Term.Centimetre) ? Topic.Airway : Topic.Tube;
    }

    private Topic OfSuction(int at, Clause clause)
    {
        if (IsHandled(at, clause) || (at + 1 < clause.To && pieces[at + 1] is { Term: Term.Gear, Value: > 0m }))
        {
            return Topic.Other;
        }

        for (var i = at - 1; i >= clause.From && i >= at - ReachBefore && pieces[i].Term != Term.Suction; i--)
        {
            if (pieces[i].Term is Term.Airway or Term.Elsewhere && !isCondition[i])
            {
                return pieces[i].Term == Term.Airway || IsJoined(i, -1) ? Topic.Airway : Topic.Elsewhere;
            }
        }

        for (var i = at + 1; i < clause.To && i <= at + ReachBehind && pieces[i].Term != Term.Suction; i++)
        {
            if (pieces[i].Term is Term.Airway or Term.Elsewhere && !isCondition[i])
            {
                return pieces[i].Term == Term.Airway || IsJoined(i, 1) ? Topic.Airway : Topic.Elsewhere;
            }
        }

        // Suction (oral).
        return clause.To + 1 < pieces.Count && at >= clause.To - 2 && pieces[clause.To].Term == Term.Opens && pieces[clause.To + 1].Term == Term.Elsewhere ? Topic.Elsewhere : Topic.Airway;
    }

    // Mouth and trach, trach and mouth: the airway is among what is suctioned.
    private bool IsJoined(int at, int step)
    {
        var (and, place) = (at + step, at + (2 * step));
        if (and < 0 || and >= pieces.Count || pieces[and].Term is not (Term.And or Term.Slash))
        {
            return false;
        }

        return (place >= 0 && place < pieces.Count && pieces[place].Term == Term.Airway)
            || (place + step >= 0 && place + step < pieces.Count && pieces[place].Term is Term.Is or Term.Word && pieces[place + step].Term == Term.Airway);
    }

    // Suction the trach and mouth: a place more, said in the clause behind.
    private bool IsPlaceMore(int at, Clause clause)
    {
        var before = clause.From - 1;
        return pieces[clause.From].Term == Term.And && at <= clause.From + 2 && before >= 0 && pieces[before].Term == Term.Airway && !clause.Has(Term.Suction) && at == FirstPlace(clause);
    }

    private int FirstPlace(Clause clause)
    {
        var at = clause.From;
        while (at < clause.To - 1 && pieces[at].Term != Term.Elsewhere)
        {
            at++;
        }

        return at;
    }

    // A catheter alone is one of suction where no other place is named beside it.
    private Topic OfGear(int at, Clause clause) =>
        clause.Has(Term.Elsewhere) || clause.Has(Term.Care) || !(pieces[at].Value > 0m || clause.Has(Term.Airway)) ? Topic.Unknown : Topic.Airway;

    private bool IsPlaceOfSuction(int at, Clause clause)
    {
        for (var i = Math.Max(clause.From, at - ReachBehind); i < clause.To && i <= at + ReachBefore; i++)
        {
            if (pieces[i].Term == Term.Suction && OfSuction(i, clause) is Topic.Elsewhere or Topic.Airway && Math.Abs(i - at) <= ReachBehind)
            {
                return true;
            }
        }

        return false;
    }

    // What is looked at, cleaned or changed is no act: assess need for suction, change suction tubing.
    private bool IsHandled(int at, Clause clause)
    {
        if (!clause.Has(Term.Assess) && !clause.Has(Term.Replace) && !clause.Has(Term.Change))
        {
            return false;
        }

        for (var i = at - 1; i >= clause.From && i >= at - ReachBehind; i--)
        {
            if (pieces[i].Term == Term.Assess || (pieces[i].Term is Term.Replace or Term.Change && IsOfGear(i, clause)))
            {
                return true;
            }
        }

        return false;
    }

    private bool IsOfGear(int at, Clause clause)
    {
        var isGear = false;
        for (var i = at + 1; i < clause.To && i <= at + ReachBehind; i++)
        {
            if (_sizes.Contains(i) || pieces[i].Term is Term.To or Term.With)
            {
                return false;
            }

            isGear |= pieces[i].Term is Term.Gear or Term.Catheter or Term.Airway && !(pieces[i].Term == Term.Airway && clause.Has(Term.Suction));
        }

        return isGear;
    }
}
