namespace AirwayGuard.Core.Orders;

/// <summary>Finds where the whole act is forbidden or held. A route, depth, system, reason or time that is forbidden is not it.</summary>
internal static class ForbiddingMentions
{
    private const int Near = 4, Far = 12;

    private static readonly Term[] Restricting =
    [
        Term.With, Term.AtMost, Term.Above, Term.AtLeast, Term.Below, Term.Routinely, Term.Scheduled, Term.Unless, Term.Every, Term.Hourly, Term.TimesADay, Term.Saline, Term.Deep,
        Term.Elsewhere, Term.French, Term.Pressure, Term.Centimetre, Term.If, Term.Needed, Term.Times, Term.Closed, Term.Open, Term.Second, Term.Quantity, Term.Preoxygenate,
        Term.Manner, Term.Phase, Term.About, Term.While, Term.PartOfDay, Term.Before, Term.Depth, Term.By, Term.Care, Term.Not,
    ];

    public static void Find(OrderTextWork work)
    {
        for (var i = 0; i < work.Pieces.Count; i++)
        {
            if (work.Pieces[i].Term != Term.Suction || work.Layout.IsCondition(i) || work.Layout.About(i) != Topic.Airway)
            {
                continue;
            }

            var start = Start(work, i);
            if (start < 0)
            {
                continue;
            }

            if (IsNoBan(work, start, i))
            {
                work.Unread.Add((start, TextSpan.Over(work.Pieces[Math.Min(start, i)].Span, work.Pieces[Math.Max(start, i)].Span)));
                continue;
            }

            var restriction = Restriction(work, start, i);
            if (restriction < 0)
            {
                var temporary = work.Behind(i, Far, Term.Until, Term.For, Term.Times, Term.Hour) >= 0;
                work.Mentions.Add(new Mention(OrderField.DoNotSuction, i, TextSpan.Over(work.Pieces[start].Span, work.Pieces[i].Span), IsConditional: temporary));
            }
            else if (work.Pieces[restriction] is { Term: Term.Manner, Value: > 0m })
            {
                // Not without need is as needed.
                work.Mentions.Add(new Mention(OrderField.AsNeeded, restriction, TextSpan.Over(work.Pieces[start].Span, work.Pieces[restriction].Span), IsConditional: true));
            }
            else if (IsUnclear(work, restriction))
            {
                work.Unread.Add((start, TextSpan.Over(work.Pieces[start].Span, work.Pieces[restriction].Span)));
            }
        }
    }

    // At a time or under a condition that is not known: after oesophagectomy may be from now on.
    private static bool IsUnclear(OrderTextWork work, int restriction) => work.Pieces[restriction] switch
    {
        { Term: Term.If or Term.Until or Term.Word } => true,
        { Term: Term.Before } or { Term: Term.Phase, Value: 0m } => work.Behind(restriction, Near, Term.Hour, Term.Day) >= 0 || work.Behind(restriction, Near, Term.Preoxygenate, Term.Oxygen, Term.Care, Term.Airway, Term.PartOfDay, Term.Plain, Term.Number) < 0,
        _ => false,
    };

    // The word that forbids; −1 for none. Not to withhold is not to forbid.
    private static int Start(OrderTextWork work, int act)
    {
        var from = Math.Max(work.ClauseOf(act).From, act - Near - 1);
        for (var i = act - 1; i >= from; i--)
        {
            switch (work.Pieces[i].Term)
            {
                case Term.CapBehind when i == act - 1:
                    return i;
                case Term.Not or Term.Nothing:
                    // Never omit suction.
                    return work.Before(i, 2, Term.Not) < 0 && work.Before(i, 1, Term.Wanted) < 0 ? i : -1;
                case Term.Hold:
                    return work.Before(i, Near, Term.Not) < 0 ? i : -1;
                case Term.Airway when work.Pieces[i].Value > 0m:
                    // A route alone.
                    return -1;
                case Term.Word or Term.Plain or Term.Is or Term.Airway or Term.Catheter or Term.Only:
                    continue;
                case Term.For when i > from && work.Pieces[i - 1].Term == Term.Not:
                    continue;
                default:
                    return -1;
            }
        }

        // Suction: none.
        if (work.Behind(act, 2, Term.Nothing, Term.Not, Term.Plain) is >= 0 and var none && (work.Pieces[none].Term != Term.Plain || work.Pieces[none].Value == Shade.Off) && none == work.ClauseOf(act).To - 1 && work.Pieces[none - 1].Term == Term.Colon)
        {
            return none;
        }

        // Suctioning is not permitted.
        if (work.Behind(act, 3, Term.Permitted) is >= 0 and var permitted && work.Pieces[permitted].Value == 0m && work.Before(permitted, 2, Term.Not) is >= 0 and var denied && denied > act)
        {
            return denied;
        }

        var behind = work.Behind(act, Near + 1, Term.Forbidden, Term.Hold, Term.And, Term.Needed, Term.Every, Term.TimesADay, Term.If);
        return behind >= 0 && (work.Pieces[behind].Term == Term.Hold || work.Pieces[behind] is { Term: Term.Forbidden, Value: 0m }) && work.Behind(behind, 2, Term.Resume) < 0 && work.Before(behind, 2, Term.Not) < 0 ? behind : -1;
    }

    // No suction needed, no suction of infection; do not suction: no.
    private static bool IsNoBan(OrderTextWork work, int start, int act)
    {
        var clause = work.ClauseOf(act);
        var next = act + 1;
        if (start < act && work.Before(act, act - start, Term.Word) >= 0)
        {
            // Do not leave suction on.
            return true;
        }

        if (next < clause.To && work.Pieces[next].Term == Term.Wanted)
        {
            return true;
        }

        if (next + 1 < clause.To && work.Pieces[next].Term == Term.Is && work.Pieces[next + 1].Term is Term.Word or Term.Wanted)
        {
            return true;
        }

        var isAsked = next < clause.To && (work.Pieces[next].Term == Term.Colon || (work.Pieces[next].Term == Term.Word && work.Pieces[next].Span.Length == 1));
        return isAsked && work.Before(act, Near, Term.Not) >= 0;
    }

    // The piece that says that not the whole act is meant, or a word that is not known; −1 for neither. Behind a dash or colon stands why, behind for how long.
    private static int Restriction(OrderTextWork work, int start, int act)
    {
        var to = Math.Min(work.ClauseOf(act).To, act + 1 + Far);
        var isReason = false;
        for (var i = act + 1; i < to && work.Pieces[i].Term is not Term.And; i++)
        {
            var piece = work.Pieces[i];
            if (piece.Term == Term.Until)
            {
                // Until secretions are heard is a need, until the catheter is in place a phase, until a time a hold.
                return work.Behind(i, 3, Term.Sign, Term.Preoxygenate, Term.Oxygen, Term.Catheter, Term.Depth) >= 0 ? i : -1;
            }

            if (piece.Term == Term.Unless && work.Before(i, Far, Term.Hour) >= 0)
            {
                return -1;
            }

            isReason |= (piece.Term == Term.Colon && start < act && work.Pieces.GetRange(act + 1, i - act - 1).TrueForAll(one => one.Term is Term.Airway or Term.Is)) || piece.Term is Term.Dash or Term.For or Term.Hour or Term.Day || piece is { Term: Term.Times, Value: 0m } || (piece.Term == Term.Phase && work.Behind(i, Far, Term.Until) >= 0) || piece is { Term: Term.Plain, Value: Shade.Reason };
            if (isReason ? piece.Term is Term.If or Term.Unless or Term.Needed or Term.Above : Restricts(work, i, to) && (piece.Term != Term.Not || start < act))
            {
                return i;
            }
        }

        return -1;
    }

    private static bool Restricts(OrderTextWork work, int at, int to)
    {
        var piece = work.Pieces[at];
        return piece.Term switch
        {
            // Via the tube: nothing else is meant by the act.
            Term.With => !(work.Behind(at, 2, Term.Airway) is >= 0 and var airway && work.Pieces[airway].Value == 0m),
            // In this patient.
            Term.Phase => piece.Value > 0m || !work.Pieces.GetRange(at + 1, to - at - 1).TrueForAll(one => one.Term == Term.Is),
            Term.Times => piece.Value > 0m,
            Term.Word => piece.Span.Length > 1,
            _ => Restricting.Contains(piece.Term),
        };
    }
}
