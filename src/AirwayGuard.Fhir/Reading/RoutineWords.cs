namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Texts that give no reason for suction: routine, scheduled, per order, per protocol, an interval, or that nothing was found.
/// The first five say that suction was due, not why; that a text without a letter and "none" give no reason either is our reading.
/// </summary>
internal static class RoutineWords
{
    private static readonly HashSet<string> Words = new(StringComparer.OrdinalIgnoreCase)
    {
        "routine", "routinely", "scheduled", "schedule", "per", "as", "by", "the", "a", "and", "ordered", "order", "orders", "protocol", "protocols",
        "policy", "every", "each", "q", "h", "hr", "hrs", "hour", "hours", "hourly", "min", "mins", "minute", "minutes", "shift", "daily", "day",
        "due", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "twelve", "bd", "bid", "tds", "tid", "qid", "qds", "suction", "suctioning", "suctioned", "care", "interval", "time", "times", "once", "twice",
        "none", "nil", "no", "not", "na", "n", "applicable", "charted", "unknown", "reason", "indication",
    };

    private static readonly HashSet<string>.AlternateLookup<ReadOnlySpan<char>> Known = Words.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>True where every word of the text is such a word, a number, or both run together (<c>q2h</c>).</summary>
    public static bool SayNothingElse(ReadOnlySpan<char> text)
    {
        while (!text.IsEmpty)
        {
            var start = 0;
            while (start < text.Length && !char.IsLetter(text[start]))
            {
                start++;
            }

            var end = start;
            while (end < text.Length && char.IsLetter(text[end]))
            {
                end++;
            }

            if (end > start && !Known.Contains(text[start..end]))
            {
                return false;
            }

            text = text[end..];
        }

        return true;
    }
}
