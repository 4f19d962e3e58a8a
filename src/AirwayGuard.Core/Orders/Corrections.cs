namespace AirwayGuard.Core.Orders;

/// <summary>Tells where a number takes the place of the one before it: 200 mmHg, correction 120 mmHg; 200 mmHg. Changed to 120 mmHg.</summary>
internal static class Corrections
{
    private const int Reach = 6;

    public static bool Corrects(OrderTextWork work, Amount amount)
    {
        var isTo = false;
        for (var i = amount.First - 1; i >= 0 && i >= amount.First - Reach; i--)
        {
            var piece = work.Pieces[i];
            switch (piece.Term)
            {
                case Term.Then when piece.Value > 0m:
                    return true;
                case Term.To:
                    isTo = true;
                    break;
                case Term.Change:
                    return isTo && piece.Value != Shade.ByAndBy && Begins(work, i) && !work.Layout.IsCondition(i) && Ends(work, amount.Last + 1);
                case Term.Plain or Term.Is or Term.Vacuum or Term.PressureWord or Term.Catheter or Term.Size or Term.Dash or Term.Comma or Term.Colon or Term.At or Term.With:
                    break;
                default:
                    return false;
            }
        }

        return false;
    }

    // Nothing behind it but when it was written: reduce to 100 after a day, or if bloody, holds only then.
    private static bool Ends(OrderTextWork work, int at) =>
        at >= work.Pieces.Count || work.Pieces[at].Term is Term.Sentence or Term.ListItem or Term.Number or Term.Needed or Term.Closes or Term.Comma
        || work.Pieces[at] is { Term: Term.Plain, Value: > 0m };

    // The sentence begins with the change; may be increased to is none.
    private static bool Begins(OrderTextWork work, int change)
    {
        var begin = change - 1;
        while (begin >= 0 && work.Pieces[begin] is { Term: Term.Plain, Value: > 0m } or { Term: Term.Vacuum or Term.PressureWord or Term.Catheter })
        {
            begin--;
        }

        return begin < 0 || work.Pieces[begin].Term is Term.Sentence or Term.ListItem;
    }
}
