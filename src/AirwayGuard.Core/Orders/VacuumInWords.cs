namespace AirwayGuard.Core.Orders;

/// <summary>Finds where a vacuum is asked for in words alone: on max, turn the regulator up. No limit can be held against it, and it may be the whole of the wall's.</summary>
internal static class VacuumInWords
{
    private const int Near = 3, Reach = 8;

    /// <summary>The most there is, or a rise by nobody knows how much, of suction of the airway.</summary>
    public static bool IsAsked(OrderTextWork work, int at) =>
        work.Layout.AboutSize(at) is Topic.Airway or Topic.Tube && work.Before(at, Near, Term.Not, Term.Forbidden) < 0
        && work.Pieces[at] switch
        {
            { Term: Term.AtMost } => IsMost(work.Pieces, at),
            { Term: Term.Change, Value: Shade.Higher } => IsOfVacuumBefore(work.Pieces, at) || IsRise(work, at),
            { Term: Term.Change, Value: Shade.VacuumUp } => !HasNumber(work.Pieces, at, at + 1 + Reach) && work.Behind(at, Reach, Term.FullLine, Term.Vague, Term.AtMost) < 0,
            { Term: Term.Plain, Value: Shade.Rise } => IsOfVacuumBefore(work.Pieces, at),
            _ => false,
        };

    /// <summary>The most there is, where no number says how much: at max, maximum vacuum.</summary>
    public static bool IsMost(List<Piece> pieces, int at) =>
        pieces[at] is { Term: Term.AtMost, Value: Shade.Extreme } && !HasNumber(pieces, at, at + 1 + Reach) && (IsOfVacuum(pieces, at) || (IsLast(pieces, at) && IsSetTo(pieces, at)));

    // Maximum suction pressure, max setting.
    private static bool IsOfVacuum(List<Piece> pieces, int at)
    {
        for (var i = at + 1; i < pieces.Count && i <= at + Near; i++)
        {
            if (pieces[i].Term is Term.Vacuum or Term.PressureWord or Term.Regulator or Term.Suction)
            {
                return true;
            }

            if (pieces[i].Term is not (Term.Is or Term.Plain or Term.Airway))
            {
                return false;
            }

            if (pieces[i].Term == Term.Plain && IsLast(pieces, i) && IsSetTo(pieces, at))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsLast(List<Piece> pieces, int at) =>
        at + 1 == pieces.Count || pieces[at + 1].Term is Term.Sentence or Term.ListItem or Term.Comma or Term.Closes or Term.Needed or Term.If or Term.For or Term.Dash or Term.Then;

    // On max, at maximum, turn up to max, vacuum max.
    private static bool IsSetTo(List<Piece> pieces, int at) =>
        at > 0 && pieces[at - 1].Term is Term.At or Term.To or Term.With or Term.Change or Term.Vacuum or Term.Regulator or Term.PressureWord or Term.Suction or Term.Phase or Term.Plain or Term.Is or Term.Colon;

    // Increase the vacuum as needed, raise the regulator until it clears.
    private static bool IsRise(OrderTextWork work, int at)
    {
        var pieces = work.Pieces;
        var of = work.Behind(at, Near, Term.Vacuum, Term.PressureWord, Term.Regulator);
        return of >= 0 && work.Behind(at, of - at, Term.Catheter, Term.Size, Term.Gear, Term.Care, Term.Quantity) < 0 && !HasNumber(pieces, at, of + 1 + Reach)
            && work.Behind(of, Reach, Term.FullLine, Term.Vague, Term.AtMost) < 0;
    }

    // 120 mmHg, increase as needed; higher if thick.
    private static bool IsOfVacuumBefore(List<Piece> pieces, int at)
    {
        if (at + 1 < pieces.Count && pieces[at + 1].Term is not (Term.Needed or Term.If or Term.Until or Term.Sentence or Term.ListItem or Term.Comma))
        {
            return false;
        }

        for (var i = at - 1; i >= 0 && i >= at - Reach && pieces[i].Term != Term.ListItem; i--)
        {
            if (pieces[i].Term is Term.Pressure or Term.French or Term.Hour or Term.Every or Term.Hourly or Term.Times or Term.Shift or Term.Percent or Term.Quantity)
            {
                return pieces[i].Term == Term.Pressure;
            }
        }

        return false;
    }

    private static bool HasNumber(List<Piece> pieces, int from, int to)
    {
        for (var i = from + 1; i < pieces.Count && i < to && pieces[i].Term is not (Term.Sentence or Term.ListItem); i++)
        {
            if (pieces[i].Term == Term.Number)
            {
                return true;
            }
        }

        return false;
    }
}
