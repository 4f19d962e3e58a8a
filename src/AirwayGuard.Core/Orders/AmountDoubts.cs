namespace AirwayGuard.Core.Orders;

/// <summary>Tells which numbers are not the whole of what is meant, or can be read in two ways.</summary>
internal static class AmountDoubts
{
    // A lower number before a plus is no vacuum in mm[Hg].
    private const decimal LeastVacuum = 40m;

    // Letters that touch a number and are neither its unit nor a prefix: l20, 1O.
    public static bool IsDoubtful(List<Piece> pieces, int at)
    {
        var before = at > 0 && pieces[at].Touches && pieces[at - 1].Term is Term.Word or Term.OtherUnit;
        var behind = at + 1 < pieces.Count && pieces[at + 1].Touches && pieces[at + 1].Term == Term.Word;
        return before || behind || pieces[at].Has(TokenMarks.Doubtful) || IsPartOfAnother(pieces, at);
    }

    // 1 20, two hundred and twenty, 120/80: the number is not the whole of what is meant. Written-out numbers count hours, not pressures.
    private static bool IsPartOfAnother(List<Piece> pieces, int at)
    {
        if (pieces[at].Has(TokenMarks.InWords) && at + 1 < pieces.Count && pieces[at + 1].Term is Term.Pressure or Term.French or Term.Centimetre)
        {
            return true;
        }

        var before = at > 0 ? pieces[at - 1].Term : Term.Sentence;
        var behind = at + 1 < pieces.Count ? pieces[at + 1].Term : Term.Sentence;
        if (before is Term.Number or Term.Hundred || behind is Term.Number or Term.Hundred || (before == Term.And && at > 1 && pieces[at - 2].Term == Term.Hundred))
        {
            return true;
        }

        // 100 ± 20, +20, 10 % less than 150, two thirds of 150.
        var isTolerance = behind == Term.About || (before == Term.About && at > 1 && pieces[at - 2].Term == Term.Number)
            || (before == Term.And && pieces[at - 1].Span.Length == 1 && pieces[at].Touches && (at == 1 || pieces[at - 2].Term is Term.Sentence or Term.Comma or Term.Colon or Term.Vacuum or Term.Change or Term.Suction or Term.Airway)) || (before == Term.Dash && at > 2 && pieces[at - 2].Term == Term.Slash && pieces[at - 3].Term == Term.And)
            || (behind == Term.And && at + 2 < pieces.Count && pieces[at + 2].Term == Term.Slash);
        isTolerance |= before == Term.Dash && at > 2 && pieces[at - 2] is { Term: Term.And, Span.Length: 1 } && pieces[at - 3].Term == Term.Number;
        var isShare = before is Term.Below or Term.Above or Term.Is && at > 2
            && ((pieces[at - 2].Term == Term.Percent && pieces[at - 3] is { Term: Term.Number, Value: < 90m })
                || (at > 3 && pieces[at - 2].Term == Term.Number && pieces[at - 3].Term == Term.Slash && pieces[at - 4].Term == Term.Number));
        if (isTolerance || isShare || IsOfSum(pieces, at))
        {
            return true;
        }

        // A second value behind a slash or the word over is that of a blood pressure, unless it has a sign or is of a day's hours.
        if ((behind == Term.Slash && IsPairOfFrench(pieces, at + 1)) || (before == Term.Slash && IsPairOfFrench(pieces, at - 1)))
        {
            return false;
        }

        return (behind is Term.Slash or Term.Above && at + 2 < pieces.Count && pieces[at + 2] is { Term: Term.Number } second && second.Value != 24m)
            || (before is Term.Slash or Term.Above && at > 1 && pieces[at - 2].Term == Term.Number);
    }

    /// <summary>12/14 Fr: two sizes of catheters, the smaller first, with one unit.</summary>
    public static bool IsPairOfFrench(List<Piece> pieces, int slash) =>
        slash > 0 && slash + 2 < pieces.Count && pieces[slash].Term == Term.Slash && pieces[slash].Touches && pieces[slash + 2].Term == Term.French
        && pieces[slash - 1] is { Term: Term.Number, Value: >= 4m } one && pieces[slash + 1] is { Term: Term.Number, Value: <= 24m } other
        && one.Value < other.Value && one.Value == decimal.Truncate(one.Value) && !one.Has(TokenMarks.TrailingZero)
        && !(slash > 1 && pieces[slash - 2].Term is Term.Slash or Term.Airway);

    // 100 + 20, 120 mmHg plus 80 mmHg: what it comes to is not written.
    private static bool IsOfSum(List<Piece> pieces, int at)
    {
        var plus = at + 1 < pieces.Count && pieces[at + 1].Term == Term.Pressure ? at + 2 : at + 1;
        return IsPlus(pieces, plus) || (at > 0 && IsPlus(pieces, at - 1));
    }

    private static bool IsPlus(List<Piece> pieces, int at)
    {
        if (at < 1 || at + 1 >= pieces.Count || pieces[at] is not { Term: Term.And, Value: > 0m } || pieces[at + 1].Term != Term.Number)
        {
            return false;
        }

        var hasUnit = pieces[at - 1].Term == Term.Pressure;
        var first = hasUnit ? at - 2 : at - 1;
        var isPressure = at + 2 < pieces.Count && pieces[at + 2].Term == Term.Pressure;
        var isBare = !hasUnit && !(at + 2 < pieces.Count && AmountReader.IsUnit(pieces[at + 2].Term));
        return first >= 0 && pieces[first] is { Term: Term.Number, Value: >= LeastVacuum } && (isPressure || isBare);
    }
}
