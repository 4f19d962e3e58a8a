using System.Globalization;

namespace AirwayGuard.Sandbox.Search;

/// <summary>
/// The half-open span of time a date of any precision stands for, in UTC ticks (R4 search.html#date). A date without an
/// offset is taken as UTC: the specification gives it the server's zone, and that is this server's.
/// </summary>
internal readonly record struct DateSpan(long Low, long High)
{
    private static readonly string[] Seconds = ["yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mmK"];

    /// <summary>Reads a FHIR date, dateTime or instant.</summary>
    public static bool TryParse(string text, out DateSpan span)
    {
        span = default;
        // An unescaped "+" of an offset arrives as a space.
        text = text.Replace(' ', '+');
        var fraction = "";
        var dot = text.IndexOf('.', StringComparison.Ordinal);
        if (dot > 0)
        {
            var end = dot + 1;
            while (end < text.Length && char.IsAsciiDigit(text[end]))
            {
                end++;
            }

            fraction = text[(dot + 1)..end];
            text = text[..dot] + text[end..];
            if (fraction.Length == 0 || text.Length < 19)
            {
                return false;
            }
        }

        string[] formats = text.Length switch { 4 => ["yyyy"], 7 => ["yyyy-MM"], 10 => ["yyyy-MM-dd"], _ => Seconds };
        if (!DateTimeOffset.TryParseExact(text, formats, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var start))
        {
            return false;
        }

        var low = start.UtcTicks;
        var width = text.Length switch
        {
            4 => DaysTicks(start.Year, 1, 12),
            7 => DaysTicks(start.Year, start.Month, 1),
            10 => TimeSpan.TicksPerDay,
            16 or 17 or 22 => TimeSpan.TicksPerMinute,
            _ => TimeSpan.TicksPerSecond,
        };
        if (fraction.Length > 0)
        {
            var kept = fraction.Length > 7 ? fraction[..7] : fraction;
            low += long.Parse(kept.PadRight(7, '0'), CultureInfo.InvariantCulture);
            width = (long)Math.Pow(10, 7 - kept.Length);
        }

        span = new DateSpan(low, low + width);
        return true;
    }

    private static long DaysTicks(int year, int month, int months) =>
        Enumerable.Range(month, months).Sum(m => DateTime.DaysInMonth(year, m) * TimeSpan.TicksPerDay);
}
