namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Reads a gestational age charted as completed weeks and days: <c>27+3</c>, <c>27 3/7</c>, <c>27w3d</c>, <c>27 weeks 3 days</c>,
/// the first two with or without wk or weeks after. The whole text must be one of these; the days are 0 to 6.
/// </summary>
internal static class GestationText
{
    private static readonly string[] Weeks = ["weeks", "week", "wk", "w"], Days = ["days", "day", "d"];

    /// <param name="days">The age in days.</param>
    public static bool TryDays(ReadOnlySpan<char> text, out int days)
    {
        days = 0;
        text = text.Trim();
        if (!TryDigits(ref text, 2, out var weeks))
        {
            return false;
        }

        var isSpaced = text.Length > 0 && text[0] == ' ';
        text = text.TrimStart();
        var isPlus = Take(ref text, "+");
        var isWords = !isPlus && TakeAny(ref text, Weeks);
        if (!(isPlus || isWords || isSpaced))
        {
            return false;
        }

        text = text.TrimStart();
        if (!TryDigits(ref text, 1, out var more) || more > 6)
        {
            return false;
        }

        var isSeventh = Take(ref text, "/7");
        text = text.TrimStart();
        var isWhole = isWords ? !isSeventh && TakeAny(ref text, Days) : (isPlus || isSeventh) && (text.IsEmpty || TakeAny(ref text, Weeks));
        days = (weeks * 7) + more;
        return isWhole && text.IsEmpty;
    }

    private static bool TryDigits(ref ReadOnlySpan<char> text, int most, out int number)
    {
        number = 0;
        var length = 0;
        while (length < text.Length && char.IsAsciiDigit(text[length]))
        {
            number = length < most ? (number * 10) + (text[length] - '0') : number;
            length++;
        }

        text = text[length..];
        return length > 0 && length <= most;
    }

    private static bool TakeAny(ref ReadOnlySpan<char> text, string[] words)
    {
        foreach (var word in words)
        {
            if (Take(ref text, word))
            {
                return true;
            }
        }

        return false;
    }

    private static bool Take(ref ReadOnlySpan<char> text, string word)
    {
        if (!text.StartsWith(word, StringComparison.OrdinalIgnoreCase))
        {
            return false;
        }

        text = text[word.Length..];
        return true;
    }
}
