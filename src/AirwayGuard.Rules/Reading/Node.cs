namespace AirwayGuard.Rules.Reading;

/// <summary>A line and column of the document, both from 1.</summary>
internal readonly record struct Place(int Line, int Column);

/// <summary>What the document holds at a place. No anchors, aliases or tags: the event check let none through.</summary>
internal abstract record Node(Place At)
{
    /// <summary>What it is, in an author's words.</summary>
    public abstract string Shape { get; }
}

internal sealed record TextNode(Place At, string Text) : Node(At)
{
    public override string Shape => "a text";

    public bool IsBlank => string.IsNullOrWhiteSpace(Text);
}

internal sealed record ListNode(Place At, IReadOnlyList<Node> Items) : Node(At)
{
    public override string Shape => "a list";
}

internal sealed record MapNode(Place At, IReadOnlyList<Entry> Entries) : Node(At)
{
    public override string Shape => "keys with values";
}

/// <summary>One key of a map with its value.</summary>
internal sealed record Entry(string Key, Place At, Node Value);
