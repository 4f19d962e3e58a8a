namespace AirwayGuard.Core.Orders;

/// <summary>What the sentences of one order say.</summary>
/// <param name="isItem">It begins as an item of a list.</param>
internal sealed class Section(bool isItem)
{
    private static readonly OrderField[] Telling = [OrderField.Vacuum, OrderField.Catheter, OrderField.Interval, OrderField.System];

    private readonly List<Mention> _mentions = [];

    // What was said so far, so that a text of many sentences is not walked again for each.
    private readonly Dictionary<OrderField, HashSet<(decimal? High, string? Word)>> _values = [];

    public IReadOnlyList<Mention> Mentions => _mentions;

    public List<TextSpan> Unread { get; } = [];

    /// <summary>Thick secretions are named as what suction is for.</summary>
    public bool NamesThickSecretions { get; set; }

    public IEnumerable<Mention> Of(OrderField field) => _mentions.Where(mention => mention.Field == field);

    /// <summary>It asks for something that differs from what the one before asks for, or both are items that say when.</summary>
    public bool IsAnother(Section before)
    {
        if (Has(OrderField.DoNotSuction) || before.Has(OrderField.DoNotSuction))
        {
            return false;
        }

        return (isItem && IsTimed && before.IsTimed) || Array.Exists(Telling, field => Differs(before, field));
    }

    public void Add(Mention mention)
    {
        _mentions.Add(mention);
        var says = mention.Bound != Bound.AtLeast && !mention.IsOpen && !(mention.Field == OrderField.Vacuum && mention.Word is not null);
        if (!_values.TryGetValue(mention.Field, out var values))
        {
            _values[mention.Field] = values = [];
        }

        if (says)
        {
            values.Add((mention.High, mention.Word));
        }
    }

    public void Add(Section section)
    {
        foreach (var mention in section._mentions)
        {
            Add(mention);
        }

        Unread.AddRange(section.Unread);
        NamesThickSecretions |= section.NamesThickSecretions;
    }

    private bool IsTimed => Has(OrderField.Interval) || Has(OrderField.AsNeeded);

    private bool Has(OrderField field) => _values.ContainsKey(field);

    private bool Differs(Section before, OrderField field) =>
        _values.TryGetValue(field, out var mine) && before._values.TryGetValue(field, out var theirs) && mine.Count > 0 && theirs.Count > 0 && !mine.SetEquals(theirs);
}
