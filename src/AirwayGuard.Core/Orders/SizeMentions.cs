using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>Finds vacuum, catheter size and depth among the amounts. What is another quantity's, of another suction, denied or past is none.</summary>
internal static class SizeMentions
{
    // Cuffs are inflated, and chests drained, by pressures of this size in cm[H2O]; no airway is suctioned by them.
    private const decimal CuffLike = 40m;

    // Suction catheters are made from 4 to 20 Fr (common practice, no source); beyond, another catheter may be meant.
    private const decimal SmallestCatheter = 3m, LargestCatheter = 24m;

    // Between these a number without a unit may be a vacuum in mm[Hg].
    private const decimal LeastVacuum = 40m, MostVacuum = 760m;

    private const int Near = 3, Reach = 8;

    public static void Find(OrderTextWork work)
    {
        Amount? vacuum = null;
        var catheter = -1;
        foreach (var read in work.Amounts)
        {
            var amount = vacuum is { } before ? InUnitOf(work, read, before) : read;
            if (amount.Kind == Term.French && work.Layout.IsCondition(amount.NumberAt) && Escalations.IsFoundWanting(work.Pieces, amount.Last))
            {
                FindTried(work, amount);
            }

            if (work.Used.Contains(amount.NumberAt) || work.Layout.IsCondition(amount.NumberAt))
            {
                continue;
            }

            switch (amount.Kind)
            {
                case Term.Pressure:
                    FindVacuum(work, amount);
                    vacuum = amount;
                    break;
                case Term.French:
                    FindCatheter(work, amount, OrderField.Catheter);
                    catheter = amount.NumberAt;
                    break;
                case Term.Centimetre:
                    FindDepth(work, amount);
                    break;
                case Term.Number when IsCatheterSize(work, amount) || IsSizeAnew(work, amount, catheter):
                    FindCatheter(work, amount, OrderField.Catheter);
                    catheter = amount.NumberAt;
                    break;
                case Term.Number when vacuum is not null && work.Before(amount.First, 1, Term.By) >= 0 && !amount.IsSameAsBefore && IsDelta(work, amount):
                    Take(work, amount, OrderField.Vacuum, work.Layout.AboutSize(amount.NumberAt) is Topic.Airway or Topic.Tube, work.Layout.AboutSize(amount.NumberAt));
                    break;
                case Term.Number when amount.IsSameAsBefore || IsBesideVacuum(work, amount):
                    FindVacuum(work, amount);
                    vacuum = amount;
                    break;
            }
        }
    }

    // If 12 Fr does not pass use 10 Fr: the larger is tried before.
    private static void FindTried(OrderTextWork work, Amount amount)
    {
        if (!amount.IsDoubtful && amount.Bound == Bound.Plain && amount.High is >= SmallestCatheter and <= LargestCatheter && work.Behind(amount.Last, Reach, Term.French) >= 0
            && work.Layout.AboutSize(amount.NumberAt) == Topic.Airway)
        {
            work.Mentions.Add(new Mention(OrderField.Catheter, amount.NumberAt, amount.Span, High: amount.High, IsConditional: true, IsAlternative: true));
        }
    }

    // 120 mmHg, 220 if thick: the second has the unit of the first.
    private static Amount InUnitOf(OrderTextWork work, Amount amount, Amount before)
    {
        var isSecond = amount.Kind == Term.Number && !amount.IsDoubtful && amount.High is >= LeastVacuum and <= MostVacuum
            && work.Layout.SentenceOf[amount.NumberAt] - work.Layout.SentenceOf[before.NumberAt] <= 1 && !work.Used.Contains(amount.NumberAt) && IsConditional(work, amount);
        return isSecond ? amount with { Kind = before.Kind == Term.Pressure ? Term.Pressure : Term.Number, Unit = before.Unit, IsSameAsBefore = true } : amount;
    }

    private static void FindVacuum(OrderTextWork work, Amount amount)
    {
        var about = work.Layout.AboutSize(amount.NumberAt);
        if (about is Topic.Airway or Topic.Tube && (IsRating(work, amount) || IsOfAnotherPressure(work, amount) || amount.Low == 0m || (amount.Unit == Unit.CmH2O && amount.High <= CuffLike)))
        {
            work.LeaveUnread(amount);
            return;
        }

        Take(work, amount, OrderField.Vacuum, about is Topic.Airway or Topic.Tube, about);
    }

    // The pressure of something that is not known: dialysis pressure 180 mmHg.
    private static bool IsOfAnotherPressure(OrderTextWork work, Amount amount) =>
        work.Before(amount.NumberAt, Near + 1, Term.PressureWord) is >= 0 and var word && work.Before(word, 1, Term.Word, Term.Elsewhere, Term.OtherUnit) >= 0;

    // What a machine can do is no order: suction unit delivers up to 600 mmHg.
    private static bool IsRating(OrderTextWork work, Amount amount) => work.ClauseOf(amount.NumberAt).Has(Term.Rating);

    private static void FindCatheter(OrderTextWork work, Amount amount, OrderField field)
    {
        var about = work.Layout.AboutSize(amount.NumberAt);
        var clause = work.ClauseOf(amount.NumberAt);
        var isOurs = about == Topic.Airway || (about == Topic.Tube && (clause.Has(Term.Catheter) || work.Before(amount.First, 1, Term.With) >= 0));
        if (isOurs && IsOfAnotherCatheter(work, amount, clause))
        {
            work.LeaveUnread(amount);
            return;
        }

        if (isOurs && (amount.High > LargestCatheter || amount.High < SmallestCatheter))
        {
            work.LeaveUnread(amount);
            return;
        }

        Take(work, amount, field, isOurs, about == Topic.Tube ? Topic.Unknown : about);
    }

    // A catheter of a kind that is not known; 12 F alone may be a girl of twelve.
    private static bool IsOfAnotherCatheter(OrderTextWork work, Amount amount, Clause clause)
    {
        if (work.Before(amount.NumberAt, Near, Term.Elsewhere) >= 0)
        {
            return true;
        }

        var isNamed = clause.Has(Term.Suction) || clause.Has(Term.Closed) || clause.Has(Term.Open);
        if (!isNamed && work.Before(amount.First, Near, Term.OtherUnit) is >= 0 and var letters && !(letters > 0 && work.Pieces[letters - 1].Term == Term.Number))
        {
            return true;
        }

        if (!isNamed && (work.Before(amount.First, Near, Term.Word) is >= 0 and var before && work.Pieces[before].Span.Length > 2 && !work.Layout.IsCondition(before)
            || (work.Behind(amount.Last, 1, Term.Word) is >= 0 and var behind && work.Pieces[behind].Span.Length > 2)))
        {
            return true;
        }

        var unit = amount.Last;
        while (unit > amount.NumberAt && work.Pieces[unit].Term != Term.French)
        {
            unit--;
        }

        return work.Pieces[unit] is { Term: Term.French, Span.Length: 1 } && !isNamed && !clause.Has(Term.Catheter) && !clause.Has(Term.Size) && !clause.Has(Term.Pressure)
            && !work.Layout.SentenceHas(amount.NumberAt, Term.Suction) && !work.Layout.SentenceHas(amount.NumberAt, Term.Vacuum)
            && !work.Layout.SentenceHas(amount.NumberAt, Term.Pressure) && !work.Layout.SentenceHas(amount.NumberAt, Term.Closed) && (clause.Has(Term.With) || clause.Has(Term.Word) || clause.To - clause.From > 4);
    }

    private static void FindDepth(OrderTextWork work, Amount amount)
    {
        var about = work.Layout.AboutSize(amount.NumberAt);
        if (work.Before(amount.First, 1, Term.And) >= 0)
        {
            // Beyond the tube by so much: a depth from the tube's end.
            return;
        }

        if (about == Topic.Airway && (amount.Bound is Bound.AtMost or Bound.Below || work.Before(amount.NumberAt, Near + 2, Term.Depth, Term.To, Term.Deep) >= 0 || work.Before(amount.First + 1, 1, Term.AtMost) >= 0 || work.Behind(amount.Last, 2, Term.Depth, Term.Deep) >= 0))
        {
            Take(work, amount, OrderField.Depth, true, about);
        }
    }

    private static void Take(OrderTextWork work, Amount amount, OrderField field, bool isOurs, Topic about)
    {
        if (!isOurs)
        {
            // Nobody knows whose it is; a number of what is named elsewhere is not ours to read.
            if (about == Topic.Unknown || (about == Topic.Elsewhere && !work.Layout.IsNamed(amount.NumberAt) && work.Layout.ActsOnAirway[work.Layout.SentenceOf[amount.NumberAt]] && !IsOfPlaceBefore(work, amount)) || IsOnlySpoken(work, amount, about)
                || (about == Topic.Other && work.Before(amount.NumberAt, Reach, Term.Gear) is >= 0 and var gear && work.Pieces[gear].Value > 0m))
            {
                work.LeaveUnread(amount);
            }

            return;
        }

        var (isDelta, isConditional) = (IsDelta(work, amount), IsConditional(work, amount));
        if (amount.IsDoubtful || isDelta || work.IsOfUnknown(amount.NumberAt))
        {
            var span = work.LeaveUnread(amount);
            if (isDelta ? IsMore(work, amount) : isConditional || IsMoreOfList(work, amount, field))
            {
                // What it may go up to is not read: the lower number beside it is not the end of what is allowed.
                work.Mentions.Add(new Mention(field, amount.NumberAt, span, IsOpen: true));
            }

            return;
        }

        if (IsOtherThan(work, amount))
        {
            work.Mentions.Add(new Mention(field, amount.NumberAt, work.LeaveUnread(amount), IsOpen: true));
            return;
        }

        work.Used.Add(amount.NumberAt);
        if (IsDenied(work, amount) || IsPast(work, amount))
        {
            return;
        }

        if (amount.Bound == Bound.AtLeast && field != OrderField.Vacuum)
        {
            work.LeaveUnread(amount);
            return;
        }

        if (Corrections.Corrects(work, amount) && work.Mentions.FindLastIndex(mention => mention.Field == field) is >= 0 and var wrong
            && work.Layout.SentenceOf[amount.NumberAt] - work.Layout.SentenceOf[work.Mentions[wrong].Piece] <= 1)
        {
            work.Mentions.RemoveAt(wrong);
        }

        work.Mentions.Add(new Mention(
            field, amount.NumberAt, amount.Span, amount.Low, amount.High, amount.Bound, amount.Unit, IsConditional: isConditional,
            IsOfGear: field == OrderField.Vacuum && work.ClauseOf(amount.NumberAt).Has(Term.Gear) && work.Before(amount.First, Near, Term.At, Term.With, Term.To) < 0,
            IsAlternative: isConditional && work.SizesOf(amount) == 1));
    }

    private static bool IsOnlySpoken(OrderTextWork work, Amount amount, Topic about) =>
        about == Topic.Elsewhere && !work.Layout.SentenceHas(amount.NumberAt, Term.Elsewhere) && !work.ClauseOf(amount.NumberAt).Has(Term.Suction);

    // Mouth (200 mmHg): what stands in brackets is of the place before them.
    private static bool IsOfPlaceBefore(OrderTextWork work, Amount amount)
    {
        var clause = work.Layout.ClauseOf[amount.NumberAt];
        return clause > 0 && work.Layout.Clauses[clause - 1].Has(Term.Elsewhere) && work.Pieces[work.Layout.Clauses[clause].From - 1].Term == Term.Opens;
    }

    // 200 mmHg no 120 mmHg: said to be one, or not to be the other.
    private static bool IsOtherThan(OrderTextWork work, Amount amount) =>
        amount.Bound == Bound.Plain && amount.First > 2 && work.Pieces[amount.First - 1] is { Term: Term.Not, Value: > 0m }
        && work.Pieces[amount.First - 2].Term == amount.Kind && amount.Kind is Term.Pressure or Term.French;

    // For thick secretions, or simply allowed: the order permits it beside what it asks for at other times.
    private static bool IsConditional(OrderTextWork work, Amount amount)
    {
        var clause = work.ClauseOf(amount.NumberAt);
        if (work.Behind(amount.Last, Near + 2, Term.Permitted) >= 0 || work.Before(amount.First, Near + 2, Term.Permitted) >= 0)
        {
            return true;
        }

        if (IsUnderCondition(work, amount, clause))
        {
            return true;
        }

        if (clause.Has(Term.Change) && work.Behind(amount.Last, 2, Term.Needed, Term.Proviso) is >= 0 and var may && (work.Pieces[may].Term == Term.Proviso || work.Pieces[may].Value > 0m))
        {
            // Increase to 120 mmHg if needed, as tolerated.
            return true;
        }

        var opener = work.Behind(amount.Last, Near + 2, Term.If, Term.For, Term.Unless);
        var leading = work.Layout.ClauseOf[amount.NumberAt] - 1;
        return (opener >= 0 && work.Layout.IsCondition(opener)) || (clause.From > 0 && work.Layout.IsCondition(clause.From))
            || (leading >= 0 && work.Layout.IsCondition(work.Layout.Clauses[leading].From) && work.Layout.SentenceOf[work.Layout.Clauses[leading].From] == work.Layout.SentenceOf[amount.NumberAt]);
    }

    // If ineffective, increase to 150; thick secretions: 150; if needed 150.
    private static bool IsUnderCondition(OrderTextWork work, Amount amount, Clause clause)
    {
        for (var i = amount.First - 1; i >= clause.From && i >= amount.First - Near - 2 && work.Pieces[i].Term is not (Term.Number or Term.Pressure or Term.French); i--)
        {
            if (work.Layout.IsCondition(i))
            {
                return true;
            }
        }

        return work.Pieces[clause.From] is { Term: Term.Sign } or { Term: Term.Needed, Value: > 0m } && amount.First > clause.From && amount.First <= clause.From + Near;
    }

    // Do not use 14 Fr; a bound that is denied is a cap and was read as one.
    private static bool IsDenied(OrderTextWork work, Amount amount) =>
        amount.Bound == Bound.Plain && work.Before(amount.First, Near + 1, Term.Not) is >= 0 and var not
        && work.Behind(not, amount.First - not - 1, Term.Saline, Term.Deep, Term.Preoxygenate, Term.And, Term.Word, Term.Airway) < 0
        && (work.Behind(not, amount.First - not - 1, Term.Suction) is var act && (act < 0 || (act == not + 1 && work.Behind(act, 1, Term.With, Term.At) >= 0)));

    /// <summary>What was, or was too little: previously 140, 80 was too weak.</summary>
    public static bool IsPast(OrderTextWork work, Amount amount) =>
        work.Before(amount.First, 2, Term.Earlier) >= 0 || (work.Before(amount.First, 4, Term.TooLittle) is >= 0 and var then && work.Pieces[then].Value > 0m) || work.Behind(amount.Last, 3, Term.TooLittle) >= 0
        || IsCalledPast(work, amount.Last + 1)
        || (work.Before(amount.First, 2, Term.Change) is >= 0 and var change && work.Pieces[change].Value == Shade.FromBefore)
        || (work.Before(amount.First, 2, Term.From) >= 0 && work.ClauseOf(amount.First).Has(Term.Change));

    // 250 mmHg (old order, discontinued); not 90 mmHg (previously 140).
    private static bool IsCalledPast(OrderTextWork work, int at)
    {
        if (at + 1 >= work.Pieces.Count || work.Pieces[at].Term != Term.Opens || work.Pieces[at + 1].Term is not (Term.History or Term.Earlier or Term.Hold))
        {
            return false;
        }

        for (var i = at + 2; i < work.Pieces.Count && i < at + 10 && work.Pieces[i].Term is not (Term.Closes or Term.Sentence); i++)
        {
            if (work.Pieces[i].Term == Term.Number)
            {
                return false;
            }
        }

        return true;
    }

    // By 20; up 20 mmHg; 20 mmHg below previous.
    private static bool IsDelta(OrderTextWork work, Amount amount) =>
        (work.Behind(amount.Last, 1, Term.Below, Term.Above) is >= 0 and var than && work.Behind(than, 3, Term.Number) < 0)
        || (work.Before(amount.First, 2, Term.By) >= 0 && (work.ClauseOf(amount.First).Has(Term.Change) || work.ClauseOf(amount.First).Has(Term.Permitted)))
        || (amount.High < LeastVacuum && amount.Unit == Unit.MmHg && work.Before(amount.First, 2, Term.Change, Term.Permitted) >= 0 && work.Before(amount.First, 2, Term.To) < 0);

    // Infants 80 mmHg, children 100 mmHg: for whom the larger is meant is not known.
    private static bool IsMoreOfList(OrderTextWork work, Amount amount, OrderField field) =>
        work.Mentions.FindLastIndex(mention => mention.Field == field) is >= 0 and var last
        && work.Layout.SentenceOf[work.Mentions[last].Piece] == work.Layout.SentenceOf[amount.NumberAt]
        && !(work.ClauseOf(amount.NumberAt).From is > 0 and var from && work.Pieces[from - 1].Term == Term.Opens)
        && (work.Mentions[last].IsOpen || (work.Mentions[last].Unit == amount.Unit && work.Mentions[last].High < amount.High && amount.Bound == Bound.Plain && !amount.IsDoubtful));

    // Less is no more than what stands beside it.
    private static bool IsMore(OrderTextWork work, Amount amount) =>
        !(work.Before(amount.First, Near + 2, Term.Change) is >= 0 and var change && work.Pieces[change].Value < 0m) && work.Behind(amount.Last, 1, Term.Below) < 0;

    // "Size 8" of a suction catheter is 8 Fr; of a tube it is no catheter.
    private static bool IsCatheterSize(OrderTextWork work, Amount amount)
    {
        if (IsOfCatheterAlone(work, amount))
        {
            return true;
        }

        var size = work.Before(amount.First, 2, Term.Size);
        if (size < 0 || work.Behind(amount.Last, 1, Term.Airway) >= 0 || work.Before(size, 1, Term.Airway) >= 0)
        {
            return false;
        }

        return work.Before(size, Near, Term.Catheter) >= 0 || work.Before(size, 1, Term.Suction) >= 0 || work.Behind(amount.Last, Near, Term.Catheter) >= 0;
    }

    // Catheter 12; catheter no 12: a whole number with nothing behind it.
    private static bool IsOfCatheterAlone(OrderTextWork work, Amount amount)
    {
        var before = amount.First - 1;
        before -= before > 0 && work.Pieces[before] is { Term: Term.Not, Value: > 0m } or { Term: Term.Colon } ? 1 : 0;
        var isEnd = amount.Last + 1 >= work.Pieces.Count || work.Pieces[amount.Last + 1].Term is Term.Sentence or Term.ListItem or Term.Comma or Term.Closes;
        return before >= work.ClauseOf(amount.NumberAt).From && work.Pieces[before].Term == Term.Catheter && isEnd && amount.Low is null && amount.Bound == Bound.Plain
            && amount.High is >= SmallestCatheter and <= LargestCatheter && amount.High == decimal.Truncate(amount.High) && !work.ClauseOf(amount.NumberAt).Has(Term.Elsewhere);
    }

    // 14 Fr; size 12 if too large: a size beside that of a catheter.
    private static bool IsSizeAnew(OrderTextWork work, Amount amount, int catheter) =>
        catheter >= 0 && work.Before(amount.First, 1, Term.Size) >= 0 && !work.ClauseOf(amount.NumberAt).Has(Term.Airway)
        && work.Layout.SentenceOf[amount.NumberAt] - work.Layout.SentenceOf[catheter] <= 1;

    private static bool IsBesideVacuum(OrderTextWork work, Amount amount)
    {
        var clause = work.ClauseOf(amount.NumberAt);
        for (var i = amount.NumberAt - 1; i >= clause.From; i--)
        {
            switch (work.Pieces[i].Term)
            {
                case Term.Vacuum or Term.PressureWord:
                    return true;
                case Term.Is or Term.To or Term.At or Term.Colon or Term.AtMost or Term.Below or Term.AtLeast or Term.Above or Term.Dash or Term.Between or Term.About or Term.Change or Term.From:
                    continue;
                default:
                    return work.Behind(amount.Last, 1, Term.Vacuum) >= 0;
            }
        }

        return work.Behind(amount.Last, 1, Term.Vacuum) >= 0;
    }
}
