using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>Reads numbers, ranges and their bounds. A range has one unit; what changes a value is read for its result.</summary>
internal static class AmountReader
{
    // Words between a bound and its number: limit the vacuum to, maximum depth of, ceiling is.
    private const int ReachOfBound = 5;

    // Inner diameter, mm.
    private const decimal LargestTube = 10m;

    public static List<Amount> Read(List<Piece> pieces)
    {
        var amounts = new List<Amount>();
        for (var i = 0; i < pieces.Count;)
        {
            if (TryOne(pieces, i, out var amount))
            {
                amounts.Add(amount);
                i = amount.Last + 1;
            }
            else
            {
                i++;
            }
        }

        return amounts;
    }

    private static bool TryOne(List<Piece> pieces, int at, out Amount amount)
    {
        amount = default;
        if (!IsStart(pieces, at, out var number, out var kind, out var unit))
        {
            return false;
        }

        var next = number + 1;
        if (kind == Term.Number)
        {
            next = Unit(pieces, next, ref kind, ref unit);
            next = kind == Term.Number ? UnitInBrackets(pieces, at, next, ref kind, ref unit) : next;
        }

        // Pressure (mmHg): 80-120, CH 12-14: the unit before is that of both.
        var isBefore = kind != Term.Number && next == number + 1;
        var (firstKind, firstUnit) = (kind, unit);

        var (low, high) = ((decimal?)null, pieces[number].Value);
        var isDoubtful = AmountDoubts.IsDoubtful(pieces, number);
        var bound = Before(pieces, at, out var first);
        if (TrySecond(pieces, number, next, isBefore ? Term.Number : kind, isBefore ? Quantities.Unit.None : unit, bound, out var second))
        {
            var end = second.Number;
            (kind, unit) = isBefore && second.Kind == Term.Number ? (firstKind, firstUnit) : (second.Kind, second.Unit);
            isDoubtful |= AmountDoubts.IsDoubtful(pieces, end);
            next = second.Next;
            if (second.IsResult)
            {
                (first, high, bound) = (end, pieces[end].Value, Bound.Plain);
                number = end;
            }
            else if (bound is Bound.AtLeast)
            {
                (low, high, bound) = (high, pieces[end].Value, Bound.AtMost);
            }
            else
            {
                (low, high) = (Math.Min(high, pieces[end].Value), Math.Max(high, pieces[end].Value));
                bound = second.Bound == Bound.Plain ? bound : second.Bound;
            }
        }

        if (next < pieces.Count && pieces[next].Term is Term.CapBehind or Term.AtMost && bound == Bound.Plain && IsBehind(pieces, next))
        {
            bound = Bound.AtMost;
            next++;
        }
        else if (next < pieces.Count && (pieces[next].Term == Term.FloorBehind || (pieces[next].Term == Term.AtLeast && kind is Term.Pressure && (IsBehind(pieces, next) || IsSetApart(pieces, next))) || (pieces[next].Term == Term.Minute && kind is Term.Pressure && bound == Bound.Plain && low is null)))
        {
            bound = Bound.AtLeast;
            next++;
        }

        amount = new Amount(low, high, bound, kind, unit, first, next - 1, number, TextSpan.Over(pieces[first].Span, pieces[next - 1].Span), isDoubtful);
        return true;
    }

    // A number, or a size written before it: F10, Ch 12.
    private static bool IsStart(List<Piece> pieces, int at, out int number, out Term kind, out Unit unit)
    {
        (number, kind, unit) = (at, Term.Number, Quantities.Unit.None);
        if (pieces[at].Term == Term.Number)
        {
            return true;
        }

        var skip = at + 1 < pieces.Count && pieces[at + 1].Term is Term.Is or Term.Colon or Term.Size ? 1 : 0;
        if (pieces[at].Term == Term.French && skip > 0 && at + 2 < pieces.Count && pieces[at + 2].Term == Term.Number && (at == 0 || pieces[at - 1].Term != Term.Number) && !(at + 3 < pieces.Count && IsUnit(pieces[at + 3].Term)))
        {
            (number, kind) = (at + 2, Term.French);
            return true;
        }

        if (pieces[at].Term == Term.French && at + 1 < pieces.Count && pieces[at + 1].Term == Term.Number
            && (at == 0 || pieces[at - 1].Term != Term.Number || IsOfNext(pieces, at)) && !(at + 2 < pieces.Count && pieces[at + 2].Term is Term.French or Term.Pressure or Term.Hour))
        {
            (number, kind) = (at + 1, Term.French);
            return true;
        }

        return false;
    }

    private static int Unit(List<Piece> pieces, int at, ref Term kind, ref Unit unit)
    {
        var unitAt = at < pieces.Count && pieces[at].Term == Term.Dash && pieces[at].Touches && at + 1 < pieces.Count && IsUnit(pieces[at + 1].Term) && pieces[at + 1].Touches ? at + 1 : at;
        if (unitAt >= pieces.Count || !IsUnit(pieces[unitAt].Term) || (pieces[unitAt].Term == Term.French && IsOfNext(pieces, unitAt)))
        {
            return at;
        }

        (kind, unit) = (pieces[unitAt].Term, pieces[unitAt].Unit);
        return unitAt + 1;
    }

    // ETT 8.0 Fr 14: the unit stands before its number.
    private static bool IsOfNext(List<Piece> pieces, int unit)
    {
        var behind = unit + 2;
        if (unit + 1 < pieces.Count && pieces[unit + 1].Term == Term.Size)
        {
            return true;
        }

        if (unit + 1 >= pieces.Count || pieces[unit + 1].Term != Term.Number || (unit > 0 && IsCatheterLike(pieces, unit - 1)))
        {
            return false;
        }

        // The end of a range, whose unit is behind it.
        if (behind + 1 < pieces.Count && pieces[behind].Term is Term.Dash or Term.To or Term.Slash or Term.Or or Term.Colon && pieces[behind + 1].Term == Term.Number)
        {
            behind += 2;
        }

        return !(behind < pieces.Count && (IsUnit(pieces[behind].Term) || pieces[behind].Term is Term.Hourly or Term.Times or Term.Slash || (pieces[behind].Term == Term.Dash && behind + 1 < pieces.Count && pieces[behind + 1].Term is Term.Hourly or Term.Hour)));
    }

    // A whole number before Fr is its own, whatever follows: 12 Fr 14 March. Only behind the name of a tube it may be that tube's size.
    private static bool IsCatheterLike(List<Piece> pieces, int number) =>
        pieces[number] is { Term: Term.Number, Value: >= 4m and <= 24m } one && one.Value == decimal.Truncate(one.Value) && !one.Has(TokenMarks.TrailingZero)
        && (pieces[number + 1].Touches || !pieces[number + 2].Touches)
        && !(one.Value <= LargestTube && number > 0 && pieces[number - 1].Term is Term.Airway or Term.Size && !(number + 3 < pieces.Count && pieces[number + 3].Term is Term.Word or Term.Plain));

    // 220 (mmHg), (220) mmHg, and (mmHg): 220.
    private static int UnitInBrackets(List<Piece> pieces, int number, int at, ref Term kind, ref Unit unit)
    {
        if (at + 2 < pieces.Count && pieces[at].Term == Term.Opens && IsUnit(pieces[at + 1].Term) && pieces[at + 2].Term == Term.Closes)
        {
            (kind, unit) = (pieces[at + 1].Term, pieces[at + 1].Unit);
            return at + 3;
        }

        if (at + 1 < pieces.Count && pieces[at].Term == Term.Closes && number > 0 && pieces[number - 1].Term == Term.Opens && IsUnit(pieces[at + 1].Term))
        {
            (kind, unit) = (pieces[at + 1].Term, pieces[at + 1].Unit);
            return at + 2;
        }

        var before = number - 1;
        while (before > 0 && before >= number - ReachOfBound && pieces[before].Term is Term.Colon or Term.Is or Term.Dash or Term.Closes or Term.AtMost or Term.Below)
        {
            before--;
        }

        if (before >= 0 && pieces[before].Term is Term.Pressure or Term.French && (before == 0 || pieces[before - 1].Term is not (Term.Number or Term.Closes)))
        {
            (kind, unit) = (pieces[before].Term, pieces[before].Unit);
        }

        return at;
    }

    public static bool IsUnit(Term term) => term is >= Term.Pressure and <= Term.OtherUnit;

    private readonly record struct Second(int Number, int Next, Term Kind, Unit Unit, Bound Bound, bool IsResult);

    private static bool TrySecond(List<Piece> pieces, int start, int at, Term kind, Unit unit, Bound first, out Second second)
    {
        second = default;
        if (at + 1 >= pieces.Count || pieces[at].Term is not (Term.Dash or Term.To or Term.Or or Term.And or Term.Slash or Term.Then or Term.AtMost or Term.Below or Term.Comma or Term.Arrow))
        {
            return false;
        }

        // At least 80 but no more than 120.
        var connector = pieces[at].Term;
        var isCap = connector is Term.AtMost or Term.Below;
        var number = isCap ? at : at + 1;
        var bound = Bound.Plain;
        if (pieces[number].Term is Term.Below or Term.AtMost)
        {
            bound = pieces[number].Term == Term.Below ? Bound.Below : Bound.AtMost;
            number++;
        }

        var isSigned = number < pieces.Count && pieces[number].Term == Term.Dash;
        number += isSigned ? 1 : 0;
        if (number >= pieces.Count || pieces[number].Term != Term.Number)
        {
            return false;
        }

        var (otherKind, otherUnit) = (Term.Number, Quantities.Unit.None);
        var next = Unit(pieces, number + 1, ref otherKind, ref otherUnit);
        var isOneUnit = otherKind == kind && otherUnit == unit;
        var fits = isOneUnit || (kind == Term.Number && otherKind != Term.Number);
        var isRange = connector switch
        {
            Term.Dash or Term.To or Term.Or or Term.Arrow => fits,
            Term.And when bound == Bound.Plain => fits && IsAfter(pieces, start, Term.Between),
            Term.AtMost when IsAfter(pieces, start, Term.From) => fits,
            Term.And or Term.Then or Term.Comma or Term.AtMost or Term.Below => fits && first == Bound.AtLeast && bound != Bound.Plain,
            Term.Slash when AmountDoubts.IsPairOfFrench(pieces, at) => fits,
            _ => fits && isSigned,
        };
        if (!isRange)
        {
            return false;
        }

        var falls = IsAfter(pieces, start, Term.From) && pieces[start].Value > pieces[number].Value;
        var isResult = connector == Term.Arrow || (connector == Term.To && (falls || IsAfter(pieces, start, Term.Change)));
        second = new Second(number, next, otherKind, otherUnit, bound, isResult);
        return true;
    }

    private static bool IsAfter(List<Piece> pieces, int at, Term term)
    {
        for (var i = at - 1; i >= 0 && i >= at - ReachOfBound && pieces[i].Term is not (Term.Sentence or Term.Comma or Term.Number); i--)
        {
            if (pieces[i].Term == term)
            {
                return true;
            }
        }

        return false;
    }

    private static Bound Before(List<Piece> pieces, int at, out int first)
    {
        first = at;
        for (var i = at - 1; i >= 0 && i >= at - ReachOfBound; i--)
        {
            var bound = pieces[i].Term switch
            {
                Term.AtMost => Bound.AtMost,
                Term.Below => Bound.Below,
                Term.AtLeast or Term.Above => IsDenied(pieces, i) ? Bound.AtMost : Bound.AtLeast,
                Term.Minute when i == at - 1 && (i == 0 || pieces[i - 1].Term != Term.Number) => Bound.AtLeast,
                _ => Bound.Plain,
            };
            if (bound != Bound.Plain)
            {
                first = i;
                return bound;
            }

            if (!IsBetween(pieces[i].Term))
            {
                return Bound.Plain;
            }

            first = pieces[i].Term is Term.Dash or Term.About ? i : first;
        }

        return Bound.Plain;
    }

    // Do not suction with more than 100 mmHg.
    private static bool IsDenied(List<Piece> pieces, int at)
    {
        for (var i = at - 1; i >= 0 && i >= at - ReachOfBound && pieces[i].Term is not (Term.Sentence or Term.Comma or Term.Number or Term.Closes); i--)
        {
            if (pieces[i].Term == Term.Not)
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsBetween(Term term) =>
        term is Term.Dash or Term.About or Term.Is or Term.To or Term.At or Term.Colon or Term.Vacuum or Term.PressureWord or Term.Regulator or Term.Catheter or Term.Size or Term.Depth;

    // A bound behind a number is that number's unless another follows it.
    private static bool IsBehind(List<Piece> pieces, int at) =>
        pieces[at].Term == Term.CapBehind || at + 1 >= pieces.Count || !IsAhead(pieces, at + 1);

    // 80 mmHg minimum to 120 mmHg maximum: each bound stands behind its number.
    private static bool IsSetApart(List<Piece> pieces, int bound) =>
        bound + 1 < pieces.Count && pieces[bound + 1].Term is Term.To or Term.Dash or Term.Comma or Term.And or Term.Slash;

    private static bool IsAhead(List<Piece> pieces, int at)
    {
        for (var i = at; i < pieces.Count && i < at + ReachOfBound; i++)
        {
            if (pieces[i].Term == Term.Number || pieces[i].Term == Term.French)
            {
                return true;
            }

            if (!IsBetween(pieces[i].Term))
            {
                return false;
            }
        }

        return false;
    }
}
