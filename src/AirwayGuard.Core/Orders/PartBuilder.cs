using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>Makes the order of a section: each field by what its mentions say together; contradictions are left unread.</summary>
internal static class PartBuilder
{
    public static OrderPart Build(Section section, OrderTextWork work)
    {
        var (taken, unread) = (new List<TakenFrom>(), new List<TextSpan>(section.Unread));
        var vacuums = section.Of(OrderField.Vacuum).ToList();
        var (low, vacuum) = Vacuum(vacuums.FindAll(mention => mention.Word is null), taken, unread);
        var mode = vacuums.Find(mention => mention.Word == "full-line").Word ?? vacuums.Find(mention => mention.Word is not null).Word;
        unread.AddRange(vacuums.Where(mention => mention.Word is not null).Select(mention => mention.Span));
        var catheter = Size(section, OrderField.Catheter, taken, unread);
        var forbids = Forbids(section, out var contradicts);
        var timing = TimingResolver.Settle(section, work);
        if (contradicts)
        {
            unread.AddRange(section.Mentions.Where(mention => mention.Field is OrderField.DoNotSuction or OrderField.AsNeeded or OrderField.Interval).Select(mention => mention.Span));
            timing = default;
        }
        else
        {
            taken.AddRange(section.Mentions.Where(IsTimingOrBan).Select(mention => new TakenFrom(mention.Field, mention.Span)));
            unread.AddRange(timing.Open is { } open ? [open] : Array.Empty<TextSpan>());
        }

        var lengths = section.Of(OrderField.Depth).Where(mention => mention.High is not null).ToList();
        return new OrderPart
        {
            VacuumLow = low,
            VacuumHigh = vacuum?.High,
            VacuumExclusive = vacuum?.Bound == Bound.Below,
            VacuumUnit = vacuum?.Unit ?? Unit.None,
            CatheterFr = catheter,
            EveryHours = timing.Hours,
            ByClock = timing.ByClock,
            AsNeeded = timing.AsNeeded,
            Saline = Answer(section, OrderField.Saline, taken, unread),
            SalineIsConditional = OnlyOnCondition(section.Of(OrderField.Saline).Where(mention => mention.Says)),
            SalineMillilitres = section.Of(OrderField.Saline).Max(mention => mention.High),
            DepthIsConditional = OnlyOnCondition(section.Of(OrderField.Depth).Where(mention => mention.Word == "deep")),
            NamesThickSecretions = section.NamesThickSecretions,
            OxygenPercent = section.Of(OrderField.Preoxygenation).Max(mention => mention.High),
            System = Word(section, OrderField.System, taken, unread),
            DepthWord = lengths.Count > 0 && !section.Of(OrderField.Depth).Any(mention => mention.Word == "deep") ? null : Word(section, OrderField.Depth, taken, unread),
            DepthCentimetres = Size(section, OrderField.Depth, taken, unread),
            Preoxygenate = Answer(section, OrderField.Preoxygenation, taken, unread),
            DoNotSuction = forbids,
            Mode = mode,
            Taken = taken,
            Unread = [.. unread.Distinct().OrderBy(span => span.Start)],
        };
    }

    private static bool IsTimingOrBan(Mention mention) =>
        mention.Field is OrderField.Interval or OrderField.AsNeeded or OrderField.ByClock or OrderField.DoNotSuction;

    private static bool OnlyOnCondition(IEnumerable<Mention> mentions)
    {
        var (any, all) = (false, true);
        foreach (var mention in mentions)
        {
            (any, all) = (true, all && mention.IsConditional);
        }

        return any && all;
    }

    // A floor is read beside an upper end; alone it bounds nothing that is judged.
    private static (decimal? Low, Mention? High) Vacuum(List<Mention> mentions, List<TakenFrom> taken, List<TextSpan> unread)
    {
        var floors = mentions.FindAll(mention => mention.Bound == Bound.AtLeast);
        var uppers = mentions.FindAll(mention => mention.Bound != Bound.AtLeast);
        if (uppers.Exists(mention => !mention.IsOfGear) || uppers.TrueForAll(mention => mention.Bound == Bound.AtMost))
        {
            // Beside a vacuum that is set, what is said of the machine is its limit.
            unread.AddRange(uppers.Where(mention => mention.IsOfGear).Select(mention => mention.Span));
            uppers.RemoveAll(mention => mention.IsOfGear);
        }

        var chosen = SizeResolver.Settle(uppers, out var contradicts);
        if (contradicts || chosen is null)
        {
            unread.AddRange(mentions.Select(mention => mention.Span));
            return (null, null);
        }

        taken.AddRange(uppers.Select(mention => new TakenFrom(OrderField.Vacuum, mention.Span)));
        var low = chosen.Value.Low;
        foreach (var floor in floors)
        {
            if (floor.Unit == chosen.Value.Unit && floor.High <= chosen.Value.High && low is null)
            {
                low = floor.High;
                taken.Add(new TakenFrom(OrderField.Vacuum, floor.Span));
            }
            else
            {
                unread.Add(floor.Span);
            }
        }

        return (low, chosen);
    }

    private static decimal? Size(Section section, OrderField field, List<TakenFrom> taken, List<TextSpan> unread)
    {
        var mentions = section.Of(field).Where(mention => mention.High is not null || mention.IsOpen).ToList();
        var chosen = SizeResolver.Settle(mentions, out var contradicts);
        if (contradicts)
        {
            unread.AddRange(mentions.Select(mention => mention.Span));
            return null;
        }

        taken.AddRange(mentions.Select(mention => new TakenFrom(field, mention.Span)));
        return chosen?.High;
    }

    // Not as a routine, and yes under a condition: yes. Else yes and no say nothing.
    private static bool? Answer(Section section, OrderField field, List<TakenFrom> taken, List<TextSpan> unread)
    {
        var mentions = section.Of(field).ToList();
        if (mentions.Count == 0)
        {
            return null;
        }

        var (yes, no) = (mentions.FindAll(mention => mention.Says), mentions.FindAll(mention => !mention.Says));
        if (yes.Count > 0 && no.Count > 0 && !yes.TrueForAll(mention => mention.IsConditional))
        {
            unread.AddRange(mentions.Select(mention => mention.Span));
            return null;
        }

        taken.AddRange(mentions.Select(mention => new TakenFrom(field, mention.Span)));
        return yes.Count > 0;
    }

    private static string? Word(Section section, OrderField field, List<TakenFrom> taken, List<TextSpan> unread)
    {
        var mentions = section.Of(field).Where(mention => mention.Word is not null).ToList();
        if (mentions.Select(mention => mention.Word).Distinct(StringComparer.Ordinal).Count() > 1)
        {
            unread.AddRange(mentions.Select(mention => mention.Span));
            return null;
        }

        taken.AddRange(mentions.Select(mention => new TakenFrom(field, mention.Span)));
        return mentions.Count > 0 ? mentions[0].Word : null;
    }

    // A hold until its end may stand beside what holds after it; a plain ban may not stand beside an order.
    private static bool? Forbids(Section section, out bool contradicts)
    {
        var bans = section.Of(OrderField.DoNotSuction).ToList();
        var asks = section.Mentions.Any(mention => mention.Field is OrderField.Interval || (mention.Field == OrderField.AsNeeded && mention.Says));
        contradicts = asks && bans.Exists(ban => !ban.IsConditional);
        return contradicts ? null : bans.Count > 0;
    }
}
