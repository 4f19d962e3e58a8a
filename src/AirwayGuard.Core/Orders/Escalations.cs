namespace AirwayGuard.Core.Orders;

/// <summary>
/// Finds where a condition ends because a size is asked for under it: if ineffective, increase to 200 mmHg. A number that only bounds, or is
/// said of another quantity, is the condition's own.
/// </summary>
internal static class Escalations
{
    private const int Reach = 4;

    // Between these a number without a unit may be a vacuum in mm[Hg].
    private const decimal LeastVacuum = 40m, MostVacuum = 760m;

    /// <summary>By piece: what is asked for begins here, should a condition be open.</summary>
    public static bool[] Starts(List<Piece> pieces, List<Amount> amounts)
    {
        var starts = new bool[pieces.Count];
        var hasVacuum = false;
        foreach (var amount in amounts)
        {
            var first = FirstOf(pieces, amount.First, out var isAsked);
            var isSize = amount.Kind is Term.Pressure or Term.French;
            var isNumber = amount.Kind == Term.Number && hasVacuum && isAsked && amount.High is >= LeastVacuum and <= MostVacuum;
            starts[first] |= (isSize || isNumber) && amount.Bound is Bound.Plain or Bound.AtMost && !IsFoundWanting(pieces, amount.Last);
            hasVacuum |= amount.Kind == Term.Pressure;
            if (amount.Kind == Term.Millilitre && SalineAt(pieces, amount) is >= 0 and var saline)
            {
                starts[saline] = true;
            }
        }

        for (var i = 0; i < pieces.Count; i++)
        {
            // If thick, full wall; if not cleared turn up to max.
            if (pieces[i].Term is Term.FullLine or Term.Vague || VacuumInWords.IsMost(pieces, i))
            {
                starts[FirstOf(pieces, i, out _)] = true;
            }
        }

        return starts;
    }

    // If thick saline 2 mL, or 2 mL saline; −1 where none stands beside the volume.
    private static int SalineAt(List<Piece> pieces, Amount amount) =>
        amount.First > 0 && pieces[amount.First - 1].Term == Term.Saline ? amount.First - 1
        : amount.Last + 1 < pieces.Count && pieces[amount.Last + 1].Term == Term.Saline ? amount.First : -1;

    // The verb before the number: use, go to, increase vacuum to.
    private static int FirstOf(List<Piece> pieces, int at, out bool isAsked)
    {
        var first = at;
        isAsked = false;
        for (var i = at - 1; i >= 0 && i >= at - Reach; i--)
        {
            switch (pieces[i].Term)
            {
                case Term.Change or Term.With or Term.At or Term.Depth or Term.Permitted or Term.Arrow:
                    (first, isAsked) = (i, true);
                    break;
                case Term.To or Term.Is or Term.Vacuum or Term.PressureWord or Term.Regulator or Term.Catheter or Term.Size or Term.Dash or Term.Plain:
                    break;
                default:
                    return first;
            }
        }

        return first;
    }

    // If 12 Fr is too large.
    public static bool IsFoundWanting(List<Piece> pieces, int last)
    {
        for (var i = last + 1; i < pieces.Count && i <= last + Reach - 1; i++)
        {
            if (pieces[i].Term == Term.TooLittle)
            {
                return true;
            }

            if (pieces[i].Term is not (Term.Is or Term.Catheter or Term.Plain))
            {
                return false;
            }
        }

        return false;
    }
}
