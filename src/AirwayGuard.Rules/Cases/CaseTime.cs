using System.Globalization;

namespace AirwayGuard.Rules.Cases;

/// <summary>
/// The clock of a case: <c>10:05</c>, <c>10:05:30</c>, <c>day 2 10:05</c>, or a date before the time. Day 1 is 1 March 2026; all are UTC, as
/// an invented chart has no place.
/// </summary>
internal static class CaseTime
{
    public const string Example = "Write 10:05, 10:05:30, day 2 10:05, or 2025-03-01 10:05.";

    private const int MostDays = 3_000;

    private static readonly DateTime FirstDay = new(2026, 3, 1, 0, 0, 0, DateTimeKind.Utc);
    private static readonly string[] Clocks = ["HH:mm", "HH:mm:ss"];

    /// <returns>UTC ticks.</returns>
    public static bool TryRead(string text, out long ticks)
    {
        ticks = 0;
        var words = text.Trim().Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var day = FirstDay;
        if (words is ["day", var number, _])
        {
            if (!int.TryParse(number, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var count) || count is < -MostDays or > MostDays)
            {
                return false;
            }

            day = FirstDay.AddDays(count - 1);
        }
        else if (words is [var date, _])
        {
            if (!DateTime.TryParseExact(date, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out day) || day.Year is < 1900 or > 2200)
            {
                return false;
            }
        }
        else if (words.Length != 1)
        {
            return false;
        }

        var isClock = TimeOnly.TryParseExact(words[^1], Clocks, CultureInfo.InvariantCulture, DateTimeStyles.None, out var clock);
        ticks = isClock ? day.Ticks + clock.Ticks : 0;
        return isClock;
    }

    /// <summary>As an author writes it: the clock alone on day 1, the day before it where another is meant.</summary>
    public static string Say(long ticks)
    {
        var time = new DateTime(ticks, DateTimeKind.Utc);
        var day = (time.Date - FirstDay).Days + 1;
        var clock = time.ToString(time.Second == 0 ? "HH:mm" : "HH:mm:ss", CultureInfo.InvariantCulture);
        return day == 1 ? clock : string.Create(CultureInfo.InvariantCulture, $"day {day} {clock}");
    }

    /// <summary>A date of birth: <c>1960</c>, <c>1960-05</c>, <c>1960-05-04</c>, or an age on day 1 as <c>12 days</c>, <c>5 months</c>, <c>66 years</c>.</summary>
    public static bool TryBirth(string text, out (int Year, int Month, int Day, byte Precision) born)
    {
        born = default;
        if (text.Trim().Split(' ', StringSplitOptions.RemoveEmptyEntries) is [var number, var unit])
        {
            if (!int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var count) || count > 120 * 366)
            {
                return false;
            }

            DateTime? day = unit switch
            {
                "day" or "days" => FirstDay.AddDays(-count),
                "month" or "months" when count <= 1440 => FirstDay.AddMonths(-count),
                "year" or "years" when count <= 120 => FirstDay.AddYears(-count),
                _ => null,
            };
            born = day is { } date ? (date.Year, date.Month, date.Day, (byte)8) : default;
            return day is not null;
        }

        foreach (var (form, precision) in (ReadOnlySpan<(string, byte)>)[("yyyy-MM-dd", 8), ("yyyy-MM", 6), ("yyyy", 4)])
        {
            if (DateTime.TryParseExact(text.Trim(), form, CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
            {
                born = (date.Year, precision >= 6 ? date.Month : 0, precision == 8 ? date.Day : 0, precision);
                return date.Year is >= 1880 and <= 2200;
            }
        }

        return false;
    }
}
