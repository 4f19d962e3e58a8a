namespace AirwayGuard.Core.Orders;

internal enum TokenKind : byte
{
    Word,
    Number,
    Sign,
    LineBreak,
}

[Flags]
internal enum TokenMarks : byte
{
    None = 0,

    /// <summary>Nothing stands between it and the token before.</summary>
    Touches = 1,

    /// <summary>A number that can be read in two ways, or stands beside a character that cannot be seen.</summary>
    Doubtful = 2,

    /// <summary>A decimal written with a zero behind the point that says nothing: 8.0.</summary>
    TrailingZero = 4,

    /// <summary>A decimal without a zero before the point: .5.</summary>
    NoLeadingZero = 8,

    /// <summary>Four digits that begin with a zero: a time of day.</summary>
    TimeOfDay = 16,

    /// <summary>A number written out.</summary>
    InWords = 32,
}

/// <summary>A word, a number or a sign of an order's text, with its place.</summary>
/// <param name="Text">In lower case and plain letters; a sign by its plainest form.</param>
/// <param name="Number">0 save of a number.</param>
internal readonly record struct Token(TokenKind Kind, TextSpan Span, string Text, decimal Number, TokenMarks Marks)
{
    public bool Touches => (Marks & TokenMarks.Touches) != TokenMarks.None;

    public bool Has(TokenMarks mark) => (Marks & mark) != TokenMarks.None;
}
