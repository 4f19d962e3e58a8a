namespace AirwayGuard.Core.Orders;

/// <summary>Reads intervals: q4h, every 2 to 4 hours, 4-hourly, twice daily, four times a day, once a shift, 0600 and 1800.</summary>
internal static class IntervalReader
{
    private const decimal HoursOfDay = 24m;
    private const int Places = 6;

    public static List<Interval> Read(List<Piece> pieces, List<Amount> amounts)
    {
        var intervals = new List<Interval>();
        var amountAt = new Dictionary<int, Amount>();
        foreach (var amount in amounts)
        {
            amountAt[amount.NumberAt] = amount;
        }

        for (var i = 0; i < pieces.Count;)
        {
            if (TryOne(pieces, amountAt, i, out var hours, out var last))
            {
                var (first, isBound) = Bounds(pieces, i, ref last);
                var isFloor = (i > 0 && pieces[i - 1].Term is Term.AtLeast or Term.Minute) || (last + 1 < pieces.Count && pieces[last + 1].Term == Term.AtLeast && !IsNumberAhead(pieces, last + 2));
                intervals.Add(new Interval(hours, isBound, isFloor, first, last, TextSpan.Over(pieces[first].Span, pieces[last].Span)));
                i = last + 1;
            }
            else
            {
                i++;
            }
        }

        return intervals;
    }

    private static bool TryOne(List<Piece> pieces, Dictionary<int, Amount> amountAt, int at, out decimal? hours, out int last)
    {
        (hours, last) = (null, at);
        switch (pieces[at].Term)
        {
            case Term.TimesADay:
                hours = pieces[at].Value > 0m ? pieces[at].Value : null;
                return true;
            case Term.Hourly:
                hours = 1m;
                return true;
            case Term.Every:
                return TryEvery(pieces, amountAt, at, out hours, out last);
            case Term.Times when pieces[at].Value > 0m && IsShift(pieces, at + 1, out last):
                return true;
            case Term.Times when pieces[at].Value > 0m && IsADay(pieces, at + 1, out last):
                hours = Math.Round(HoursOfDay / pieces[at].Value, Places);
                return true;
            case Term.Hour when pieces[at].Value > 0m:
                // At bedtime, where no number stands before it.
                return at == 0 || pieces[at - 1].Term is not (Term.Number or Term.Every);
            case Term.Plain when IsHalfOfDay(pieces, at):
                return IsListed(pieces, at);
            case Term.Number:
                return TryNumber(pieces, amountAt, at, out hours, out last);
            default:
                return false;
        }
    }

    private static bool TryEvery(List<Piece> pieces, Dictionary<int, Amount> amountAt, int at, out decimal? hours, out int last)
    {
        (hours, last) = (null, at);
        var next = Skip(pieces, at + 1);
        if (next >= pieces.Count)
        {
            return false;
        }

        last = next;
        switch (pieces[next].Term)
        {
            case Term.Shift:
                return true;
            case Term.Hour:
                hours = 1m;
                return true;
            case Term.Day:
                hours = HoursOfDay;
                return true;
            case Term.Second when next + 1 < pieces.Count && pieces[next + 1].Term == Term.Hour:
                (hours, last) = (2m, next + 1);
                return true;
        }

        if (!amountAt.TryGetValue(next, out var amount) || amount.IsDoubtful || !TryHours(amount, out hours))
        {
            return false;
        }

        last = amount.Last;
        last += last + 1 < pieces.Count && pieces[last + 1].Term == Term.Hourly ? 1 : 0;
        return true;
    }

    private static bool TryNumber(List<Piece> pieces, Dictionary<int, Amount> amountAt, int at, out decimal? hours, out int last)
    {
        (hours, last) = (null, at);
        if (IsTimeOfDay(pieces, at, out last))
        {
            return true;
        }

        if (!amountAt.TryGetValue(at, out var amount) || amount.IsDoubtful)
        {
            return false;
        }

        var next = amount.Last + 1;
        next += next + 1 < pieces.Count && pieces[next].Term == Term.Dash && pieces[next + 1].Touches ? 1 : 0;
        var term = next < pieces.Count ? pieces[next].Term : Term.Word;
        if (amount.Kind == Term.Number && term == Term.Hourly)
        {
            (hours, last) = (amount.Low ?? amount.High, next);
            return hours > 0m;
        }

        // In 4/24 the second number is the day's hours.
        if (amount.Kind == Term.Number && term == Term.Slash && next + 1 < pieces.Count && pieces[next + 1] is { Term: Term.Number, Value: HoursOfDay })
        {
            (hours, last) = (amount.High, next + 1);
            return hours > 0m;
        }

        if (amount.Kind is Term.Hour or Term.Minute && term == Term.Every && TryHours(amount, out hours))
        {
            last = next;
            return true;
        }

        if (amount.Kind == Term.Number && term == Term.Times && pieces[next].Value == 0m && IsADay(pieces, next + 1, out last) && amount.High > 0m)
        {
            hours = Math.Round(HoursOfDay / amount.High, Places);
            return true;
        }

        return false;
    }

    private static bool TryHours(Amount amount, out decimal? hours)
    {
        var number = amount.Low ?? amount.High;
        hours = amount.Kind switch
        {
            Term.Hour or Term.Number => number,
            Term.Minute => Math.Round(number / 60m, Places),
            Term.Day => number * HoursOfDay,
            _ => null,
        };
        hours = hours / 1.0000000000000000000000000000m;
        return hours > 0m;
    }

    private static bool IsShift(List<Piece> pieces, int at, out int last)
    {
        last = at;
        while (last < pieces.Count && pieces[last].Term is Term.Every or Term.Is or Term.Slash or Term.Word or Term.Plain && last < at + 2)
        {
            last++;
        }

        return last < pieces.Count && pieces[last].Term == Term.Shift;
    }

    private static bool IsADay(List<Piece> pieces, int at, out int last)
    {
        last = at;
        for (var i = at; i < pieces.Count && i < at + 3; i++)
        {
            last = i;
            switch (pieces[i].Term)
            {
                case Term.ADay or Term.Day:
                    return true;
                case Term.TimesADay:
                    return pieces[i].Value == HoursOfDay;
                case Term.Number:
                    last = i + 1;
                    return pieces[i].Value == HoursOfDay && last < pieces.Count && pieces[last].Term == Term.Hour;
                case Term.Every or Term.Is or Term.Slash or Term.Word:
                    continue;
                default:
                    return false;
            }
        }

        return false;
    }

    // 0600, or 06:00.
    private static bool IsTimeOfDay(List<Piece> pieces, int at, out int last)
    {
        last = at;
        if (IsStamp(pieces, at))
        {
            return false;
        }

        if (pieces[at].Has(TokenMarks.TimeOfDay) || IsFourDigits(pieces, at))
        {
            return true;
        }

        if (at + 1 < pieces.Count && IsHalfOfDay(pieces, at + 1) && pieces[at].Value is >= 1m and <= 12m && !(at > 0 && pieces[at - 1].Term is Term.From or Term.Before or Term.Phase or Term.Until))
        {
            last = at + 1;
            return true;
        }

        last = at + 2;
        return last < pieces.Count && pieces[at + 1] is { Term: Term.Colon, Touches: true } && pieces[last] is { Term: Term.Number, Touches: true, Value: < 60m }
            && pieces[at].Value < 25m && pieces[last].Span.Length == 2;
    }

    // At 1400, no unit behind it.
    private static bool IsFourDigits(List<Piece> pieces, int at) =>
        at > 0 && pieces[at - 1].Term == Term.At && pieces[at] is { Span.Length: 4, Value: >= 1000m and < 2400m } && pieces[at].Value % 100m < 60m
        && !(at + 1 < pieces.Count && AmountReader.IsUnit(pieces[at + 1].Term));

    // Ordered at 14:00; 14:00: suction. When it was written is no time of suction.
    private static bool IsStamp(List<Piece> pieces, int at)
    {
        var before = at > 0 && pieces[at - 1].Term == Term.At ? at - 2 : at - 1;
        return before >= 0 && pieces[before] is { Term: Term.Plain, Value: Shade.Written };
    }

    private static bool IsHalfOfDay(List<Piece> pieces, int at) => pieces[at] is { Term: Term.Plain, Value: Shade.HalfOfDay };

    // AM and PM; AM, HS: one alone may say when something else is.
    private static bool IsListed(List<Piece> pieces, int at) =>
        (at + 2 < pieces.Count && pieces[at + 1].Term is Term.And or Term.Comma or Term.Slash && IsPointOfDay(pieces, at + 2))
        || (at > 1 && pieces[at - 1].Term is Term.And or Term.Comma or Term.Slash && IsPointOfDay(pieces, at - 2));

    private static bool IsPointOfDay(List<Piece> pieces, int at) => IsHalfOfDay(pieces, at) || pieces[at] is { Term: Term.Hour, Value: > 0m } or { Term: Term.TimesADay, Value: 0m };

    private static (int First, bool IsBound) Bounds(List<Piece> pieces, int at, ref int last)
    {
        var first = at;
        for (var i = at - 1; i >= 0 && i >= at - 2 && pieces[i].Term is Term.AtMost or Term.Is or Term.Below or Term.Above; i--)
        {
            if (pieces[i].Term is Term.AtMost or Term.Below || (pieces[i].Term == Term.Above && IsDenied(pieces, i)))
            {
                return (i, true);
            }
        }

        // q2h max 150 mmHg: the bound is of the number behind it.
        if (last + 1 < pieces.Count && (pieces[last + 1].Term == Term.CapBehind || (pieces[last + 1].Term == Term.AtMost && !IsNumberAhead(pieces, last + 2))))
        {
            last++;
            return (first, true);
        }

        return (first, false);
    }

    private static bool IsNumberAhead(List<Piece> pieces, int at)
    {
        for (var i = at; i < pieces.Count && i < at + 4; i++)
        {
            if (pieces[i].Term is Term.Number or Term.French)
            {
                return true;
            }

            if (pieces[i].Term is Term.Sentence or Term.Comma)
            {
                return false;
            }
        }

        return false;
    }

    private static bool IsDenied(List<Piece> pieces, int at)
    {
        for (var i = at - 1; i >= 0 && i >= at - 4 && pieces[i].Term is not (Term.Sentence or Term.Comma); i--)
        {
            if (pieces[i].Term == Term.Not)
            {
                return true;
            }
        }

        return false;
    }

    private static int Skip(List<Piece> pieces, int at) => at < pieces.Count && pieces[at].Term is Term.Dash or Term.Is or Term.Colon ? at + 1 : at;
}
