namespace AirwayGuard.Core.Orders;

/// <summary>Finds saline, oxygen before the pass, open or closed, shallow or deep, and whether each is asked for or denied.</summary>
internal static class AnswerMentions
{
    // Less oxygen than air holds is by how much it is raised.
    private const decimal RoomAir = 21m;

    // Points that oxygen is commonly raised by at most for a neonate (University of Iowa, neonatology unit guide); more is a person's to look at.
    private const decimal PlainRise = 10m;

    private const int Near = 3, Reach = 5;

    public static void Find(OrderTextWork work)
    {
        for (var i = 0; i < work.Pieces.Count; i++)
        {
            if (work.Layout.IsCondition(i))
            {
                continue;
            }

            switch (work.Pieces[i].Term)
            {
                case Term.Saline when IsOfSuction(work, i) && (!IsOtherSaline(work, i) || Denials.IsOfDeniedList(work, i)):
                    AddAnswer(work, i, OrderField.Saline);
                    break;
                case Term.Instil when IsOfSuction(work, i) && !work.ClauseOf(i).Has(Term.Saline):
                    FindInstilled(work, i);
                    break;
                case Term.Nothing when IsOfSuction(work, i) && work.Behind(i, Near, Term.Airway, Term.Instil) >= 0 && work.Layout.SentenceHas(i, Term.Saline):
                    work.Mentions.Add(new Mention(OrderField.Saline, i, work.Pieces[i].Span, Says: false));
                    break;
                case Term.Preoxygenate when IsOfSuction(work, i):
                    AddAnswer(work, i, OrderField.Preoxygenation);
                    break;
                case Term.Oxygen or Term.Quantity when IsGivenBefore(work, i):
                    AddAnswer(work, i, OrderField.Preoxygenation);
                    break;
                case Term.Closed or Term.Open when IsOfAct(work, i) && IsOfSuction(work, i):
                    FindSystem(work, i);
                    break;
                case Term.Deep or Term.Shallow when work.Layout.AboutSize(i) != Topic.Elsewhere:
                    FindTechnique(work, i);
                    break;
                case Term.FullLine or Term.Intermittent when work.Layout.AboutSize(i) is Topic.Airway or Topic.Tube && work.Before(i, Near, Term.Not) < 0 && (work.Pieces[i].Value != Shade.IfOfVacuum || work.Before(i, Near, Term.Vacuum, Term.Regulator, Term.PressureWord, Term.Suction, Term.Change) >= 0):
                    work.Mentions.Add(new Mention(OrderField.Vacuum, i, work.Pieces[i].Span, Word: work.Pieces[i].Term == Term.FullLine ? "full-line" : "intermittent"));
                    break;
                case Term.AtMost or Term.Change or Term.Plain when VacuumInWords.IsAsked(work, i):
                    work.LeaveUnread(i);
                    break;
                case Term.Vague when work.Layout.AboutSize(i) is not (Topic.Elsewhere or Topic.Other) && work.Before(i, Near, Term.Not) < 0:
                    work.LeaveUnread(i);
                    break;
            }
        }
    }

    private static bool IsOfSuction(OrderTextWork work, int at) =>
        work.Layout.SpeaksOfAirway && work.Layout.About(at) != Topic.Elsewhere;

    // A drip, a nebuliser, a wash: saline that goes elsewhere. The letters NS alone may be anything.
    private static bool IsOtherSaline(OrderTextWork work, int at)
    {
        var clause = work.ClauseOf(at);
        if (clause.Has(Term.Gear) && clause.Has(Term.Care))
        {
            return true;
        }

        if (clause.Has(Term.Suction) || (clause.Has(Term.Airway) && !clause.Has(Term.Replace)))
        {
            return work.Before(at, Near, Term.Care) >= 0 && !clause.Has(Term.Airway);
        }

        var isLetters = work.Pieces[at].Span.Length <= 3 && !clause.Has(Term.Millilitre) && !clause.Has(Term.Instil) && work.Before(at, 2, Term.With, Term.Not, Term.Nothing, Term.Hold) < 0
            && work.Behind(at, 2, Term.Saline, Term.Needed, Term.If, Term.Colon) < 0 && !Denials.AnswersNo(work, at);
        var isDrip = work.Behind(at, Reach, Term.Millilitre) is >= 0 and var volume && volume + 2 < work.Pieces.Count && work.Pieces[volume + 1].Term == Term.Slash && work.Pieces[volume + 2].Term == Term.Hour;
        return isLetters || isDrip || clause.Has(Term.Replace) || clause.Has(Term.Gear) || clause.Has(Term.Care);
    }

    // Of the act behind it, whatever was named before.
    private static bool IsOfAct(OrderTextWork work, int at) => work.Behind(at, 2, Term.Suction) is >= 0 and var act
        ? work.Layout.AboutSize(act) == Topic.Airway
        : work.Layout.AboutSize(at) is not (Topic.Elsewhere or Topic.Other);

    private static void AddAnswer(OrderTextWork work, int at, OrderField field)
    {
        if (IsLeftBlank(work, at) || (work.Before(at, 2, Term.Earlier) is >= 0 and var past && work.Pieces[past].Value == 0m)
            || (work.Before(at, 1, Term.From) >= 0 && work.ClauseOf(at).Has(Term.Change)))
        {
            return;
        }

        if (Denials.IsUnclear(work, at))
        {
            work.LeaveUnread(at);
            return;
        }

        var isDenied = Denials.IsDenied(work, at, out var isRoutine) || work.Pieces[at].Value < 0m || Denials.AnswersNo(work, at) || Denials.IsNoneGiven(work, at);
        // Not before oxygen was given: it is asked for.
        isDenied &= !(field == OrderField.Preoxygenation && work.Before(at, Near + 1, Term.Before) is >= 0 and var first && work.Before(first, Reach, Term.Not, Term.Hold) >= 0
            && work.Behind(first, at - first - 1, Term.Not) < 0);
        var isUnless = work.Behind(at, Reach, Term.Unless) >= 0 || IsUnlessNext(work, at);
        var isConditional = work.Behind(at, Reach + Near, Term.If, Term.Only, Term.For) >= 0 || isUnless || isRoutine || IsUnderCondition(work, at);
        var says = !isDenied || (isUnless && !isRoutine);
        work.Mentions.Add(new Mention(field, at, work.Pieces[at].Span, High: AmountOf(work, at, field), Says: says, IsConditional: isConditional));
        if (field == OrderField.Preoxygenation && says)
        {
            LeaveRiseUnread(work, at);
        }
    }

    // No, unless thick.
    private static bool IsUnlessNext(OrderTextWork work, int at)
    {
        var next = work.ClauseOf(at).To + 1;
        return next < work.Pieces.Count && work.Pieces[next - 1].Term == Term.Comma && work.Pieces[next].Term == Term.Unless;
    }

    // If thick saline 2 mL.
    private static bool IsUnderCondition(OrderTextWork work, int at)
    {
        for (var i = at - 1; i >= work.ClauseOf(at).From && i >= at - Reach; i--)
        {
            if (work.Layout.IsCondition(i))
            {
                return true;
            }
        }

        return false;
    }

    // Saline: ___; saline Y/N.
    private static bool IsLeftBlank(OrderTextWork work, int at)
    {
        var clause = work.ClauseOf(at);
        var choice = at + 1 < clause.To && work.Pieces[at + 1].Term == Term.Colon ? at + 2 : at + 1;
        if (choice + 1 < clause.To && work.Pieces[choice].Span.Length == 1 && work.Pieces[choice + 1].Term == Term.Slash)
        {
            return true;
        }

        return at + 1 < clause.To && work.Pieces[at + 1].Term == Term.Colon && (at + 2 == clause.To || (work.Pieces[at + 2].Term == Term.Word && work.Pieces[at + 2].Span.Length == 1));
    }

    // The volume or share named with it; by how much oxygen is raised is no share.
    private static decimal? AmountOf(OrderTextWork work, int at, OrderField field)
    {
        var clause = work.Layout.ClauseOf[at];
        var amounts = field == OrderField.Saline ? work.Millilitres : work.Percents;
        return work.Layout.Clauses[clause].Has(Term.By) || !amounts.TryGetValue(clause, out var amount) || (field == OrderField.Preoxygenation && amount < RoomAir) ? null : amount;
    }

    // By how much oxygen is raised is no share, and no limit can be held against it without the oxygen before.
    private static void LeaveRiseUnread(OrderTextWork work, int at)
    {
        var isBy = work.ClauseOf(at).Has(Term.By);
        var rise = work.Amounts.FindIndex(one => one.Kind == Term.Percent && work.Layout.ClauseOf[one.NumberAt] == work.Layout.ClauseOf[at] && (isBy || one.High < RoomAir) && one.High > PlainRise);
        if (rise >= 0 && !work.Used.Contains(work.Amounts[rise].NumberAt))
        {
            work.LeaveUnread(work.Amounts[rise]);
        }
    }

    // What else may be instilled is not read; that nothing is says no.
    private static void FindInstilled(OrderTextWork work, int at)
    {
        if (work.Before(at, Near, Term.Not, Term.Nothing) >= 0 || work.Behind(at, 2, Term.Nothing, Term.Not) >= 0)
        {
            work.Mentions.Add(new Mention(OrderField.Saline, at, work.Pieces[at].Span, Says: false));
        }
        else if (work.ClauseOf(at).Has(Term.Millilitre))
        {
            work.LeaveUnread(at);
        }
    }

    // 100 % oxygen, then suction; full oxygen first.
    private static bool IsGivenBefore(OrderTextWork work, int at)
    {
        var isShare = work.Pieces[at].Term == Term.Quantity;
        if (!IsOfSuction(work, at) || (isShare && work.Pieces[at].Value == 0m))
        {
            return false;
        }

        var clause = work.ClauseOf(at);
        var isFull = clause.Has(Term.Full) || clause.Has(Term.Change) || work.FullShares.Contains(work.Layout.ClauseOf[at]);
        var next = work.Layout.ClauseOf[at] + 1;
        var isFirst = clause.Has(Term.Before)
            || (next < work.Layout.Clauses.Count && work.Layout.Clauses[next].Has(Term.Then) && work.Layout.Clauses[next].Has(Term.Suction));
        return isFull && isFirst;
    }

    private static void FindSystem(OrderTextWork work, int at)
    {
        var isOpen = work.Pieces[at].Term == Term.Open;
        if (isOpen ? !IsSystemWord(work, at) : IsOfSomethingElse(work, at))
        {
            return;
        }

        var isPast = work.Before(at, 2, Term.Earlier) >= 0 || IsReplaced(work, at);
        // Closed, not open: the other is denied.
        var isDenied = work.Before(at, Near, Term.Not, Term.Hold) >= 0 || Denials.AnswersNo(work, at)
            || (work.Behind(at, Near, Term.Forbidden, Term.Not, Term.TooLittle) is >= 0 and var not && work.Behind(not, 2, Term.Open, Term.Closed) < 0);
        if (!isPast && !isDenied)
        {
            var isConditional = work.Behind(at, Reach + Near, Term.If, Term.Unless) >= 0 || work.Before(at, Near, Term.Then) >= 0;
            work.Mentions.Add(new Mention(OrderField.System, at, work.Pieces[at].Span, Word: isOpen ? "open" : "closed", IsConditional: isConditional));
        }
    }

    // The word closed alone, said of what is not known: closed fracture, eyes closed.
    private static bool IsOfSomethingElse(OrderTextWork work, int at)
    {
        var clause = work.ClauseOf(at);
        return work.Pieces[at].Value > 0m && clause.Has(Term.Word)
            && !(clause.Has(Term.Suction) || clause.Has(Term.Technique) || clause.Has(Term.Catheter) || clause.Has(Term.Gear) || clause.Has(Term.French) || clause.Has(Term.Pressure));
    }

    private static bool IsSystemWord(OrderTextWork work, int at) =>
        IsAlone(work, at) || work.Behind(at, 2, Term.Suction, Term.Technique, Term.Catheter) >= 0 || work.Before(at, 2, Term.Technique, Term.Colon, Term.Suction) >= 0;

    // Replace open with closed: what stands before goes.
    private static bool IsReplaced(OrderTextWork work, int at)
    {
        var clause = work.ClauseOf(at);
        return (clause.Has(Term.Replace) || clause.Has(Term.Change)) && work.Behind(at, Near, Term.With, Term.To) is >= 0 and var with
            && work.Behind(with, 2, Term.Open, Term.Closed, Term.Deep, Term.Shallow) >= 0;
    }

    private static void FindTechnique(OrderTextWork work, int at)
    {
        var isDeep = work.Pieces[at].Term == Term.Deep;
        if (!IsOfSuction(work, at) || IsReplaced(work, at) || work.Layout.AboutSize(at) == Topic.Other || (at + 1 < work.ClauseOf(at).To && work.Pieces[at + 1].Term == Term.Word)
            || !(!isDeep || work.Before(at, 1, Term.Slash) >= 0 || IsAlone(work, at) || work.Behind(at, Near, Term.Suction, Term.Technique, Term.Depth, Term.Catheter) >= 0 || work.Before(at, Near, Term.Suction, Term.Technique, Term.Depth, Term.Catheter, Term.Sentence) >= 0 || at == work.ClauseOf(at).From))
        {
            return;
        }

        var isDenied = IsTechniqueDenied(work, at) || work.Behind(at, Near, Term.Forbidden) >= 0 || Denials.AnswersNo(work, at);
        if (!isDenied || isDeep)
        {
            var isConditional = work.Behind(at, Reach + Near, Term.If, Term.Unless) >= 0;
            work.Mentions.Add(new Mention(OrderField.Depth, at, work.Pieces[at].Span, Word: isDeep && !isDenied ? "deep" : "shallow", IsConditional: isConditional));
        }
    }

    // Do not suction the lungs deeply. Not shallow - deep: only the one is denied.
    private static bool IsTechniqueDenied(OrderTextWork work, int at)
    {
        var not = work.Before(at, Reach + 1, Term.Not, Term.Hold);
        return work.Before(at, 1, Term.AtMost) >= 0 || (not >= 0 && work.Behind(not, at - not - 1, Term.Deep, Term.Shallow, Term.Dash) < 0
            && (at - not <= Near || (work.Behind(not, at - not - 1, Term.Suction) >= 0 && work.Behind(not, at - not - 1, Term.Saline, Term.And, Term.Preoxygenate, Term.With) < 0)));
    }

    // Nothing but sizes and small words beside it.
    private static bool IsAlone(OrderTextWork work, int at)
    {
        var clause = work.ClauseOf(at);
        if (clause.To - clause.From > Reach + Near)
        {
            return false;
        }

        for (var i = clause.From; i < clause.To; i++)
        {
            if (i != at && work.Pieces[i].Term is not (Term.Number or Term.French or Term.Pressure or Term.Is or Term.Slash or Term.Colon or Term.Needed or Term.With or Term.Technique or Term.Dash or Term.Only or Term.And or Term.Yes or Term.AtMost or Term.Every or Term.Hour or Term.Not or Term.Closed or Term.Open or Term.Deep or Term.Shallow or Term.Earlier))
            {
                return false;
            }
        }

        return true;
    }
}
