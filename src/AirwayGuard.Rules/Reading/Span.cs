using System.Globalization;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Reading;

/// <summary>Reads how long a rule waits or a setting holds: a whole number of min or h, from nothing to the most given.</summary>
internal static class Span
{
    public static readonly TimeSpan MostWait = TimeSpan.FromHours(48);
    public static readonly TimeSpan MostHold = TimeSpan.FromHours(1);

    public static TimeSpan Read(Keys keys, string key, TimeSpan fallback, TimeSpan most, Faults faults)
    {
        if (!keys.TryText(key, out var text))
        {
            return fallback;
        }

        var (number, unit) = Amount.SplitAtSpace(text.Text.Trim());
        if (int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var count) && unit is "min" or "h")
        {
            var minutes = unit == "h" ? count * 60L : count;
            if (minutes <= (long)most.TotalMinutes)
            {
                return TimeSpan.FromMinutes(minutes);
            }
        }

        faults.Add(
            Codes.RuleDurationOutOfRange, text.At, $"{key} is {Words.Quote(text.Text)}.",
            $"Write 0 to {Words.Number((decimal)most.TotalHours)} h, such as {(most.TotalHours > 1 ? "2 h" : "3 min")}.");
        return fallback;
    }
}
