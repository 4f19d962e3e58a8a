namespace AirwayGuard.Core.Orders;

/// <summary>What the sentences of one order say.</summary>
/// <param name="isItem">It begins as an item of a list.</param>
internal sealed class Section(bool isItem)
{
    public List<Mention> Mentions { get; } = [];

    public List<TextSpan> Unread { get; } = [];

    public IEnumerable<Mention> Of(OrderField field) => Mentions.Where(mention => mention.Field == field);

    public bool Has(OrderField field) => Mentions.Exists(mention => mention.Field == field);

    /// <summary>It asks for something that differs from what the one before asks for, or both are items that say when.</summary>
    public bool IsAnother(Section before)
    {
        if (Has(OrderField.DoNotSuction) || before.Has(OrderField.DoNotSuction))
        {
            return false;
        }

        var bothTimed = Timed(this) && Timed(before);
        return (isItem && bothTimed)
            || Differs(before, OrderField.Vacuum) || Differs(before, OrderField.Catheter) || Differs(before, OrderField.Interval) || Differs(before, OrderField.System);
    }

    public void Add(Section section)
    {
        Mentions.AddRange(section.Mentions);
        Unread.AddRange(section.Unread);
    }

    private static bool Timed(Section section) => section.Has(OrderField.Interval) || section.Has(OrderField.AsNeeded);

    private bool Differs(Section before, OrderField field)
    {
        var (mine, theirs) = (Values(field), before.Values(field));
        return mine.Count > 0 && theirs.Count > 0 && !mine.SetEquals(theirs);
    }

    private HashSet<(decimal?, string?)> Values(OrderField field) =>
        [.. Of(field).Where(mention => mention.Bound != Bound.AtLeast && (field != OrderField.Vacuum || mention.Word is null)).Select(mention => (mention.High, mention.Word))];
}
