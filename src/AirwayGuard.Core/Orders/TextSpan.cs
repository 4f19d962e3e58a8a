namespace AirwayGuard.Core.Orders;

/// <summary>Characters of an order's text.</summary>
/// <param name="Start">Index of the first, from 0.</param>
/// <param name="Length">How many.</param>
public readonly record struct TextSpan(int Start, int Length)
{
    /// <summary>Index after the last.</summary>
    public int End => Start + Length;

    /// <summary>Covers both.</summary>
    public static TextSpan Over(TextSpan one, TextSpan other)
    {
        var start = Math.Min(one.Start, other.Start);
        return new TextSpan(start, Math.Max(one.End, other.End) - start);
    }
}
