using System.Globalization;

namespace AirwayGuard.TestKit.Histories;

/// <summary>Age bands, by trying every birth date that the charted one allows.</summary>
public static class ReferenceAge
{
    public const string Neonate = "neonate", Infant = "infant", Child = "child", Adult = "adult", Unknown = "unknown";

    /// <summary>All bands, youngest first.</summary>
    public static readonly IReadOnlyList<string> All = [Neonate, Infant, Child, Adult];

    /// <summary>The bands possible at the event; none for a birth after it.</summary>
    /// <param name="gestationDays">Gestational age at birth in days, or none.</param>
    public static IReadOnlyList<string> Possible(string? birthDate, decimal? gestationDays, DateTimeOffset at)
    {
        if (birthDate is null)
        {
            return All;
        }

        // Counted on the calendar date of the event at its own offset.
        var day = DateOnly.FromDateTime(at.DateTime);
        // A partial birth date leaves every band that is still possible; one after the event leaves none.
        return [.. BirthDays(birthDate).Where(birth => birth <= day).Select(birth => Of(birth, gestationDays, day)).Distinct(StringComparer.Ordinal)];
    }

    /// <summary>The band, if only one is possible; else unknown.</summary>
    public static string Printed(IReadOnlyList<string> possible) => possible.Count == 1 ? possible[0] : Unknown;

    /// <summary>The band on a day of one exact birth date.</summary>
    public static string Of(DateOnly birth, decimal? gestationDays, DateOnly day)
    {
        // Born before 37 weeks: until the second birthday age counts from the day on which 40 weeks would have been reached, and
        // before that day it is a neonate's.
        if (gestationDays is { } days && days < 37 * 7 && day < Birthday(birth, 2))
        {
            birth = birth.AddDays((int)((40 * 7) - days));
        }

        // Neonate to day 28, infant to the day before the first birthday, child to the day before the 18th.
        return day.DayNumber - birth.DayNumber <= 28 ? Neonate : day < Birthday(birth, 1) ? Infant : day < Birthday(birth, 18) ? Child : Adult;
    }

    // Where a year has no 29 February, the birthday is 1 March.
    private static DateOnly Birthday(DateOnly birth, int years) =>
        birth is { Month: 2, Day: 29 } && !DateTime.IsLeapYear(birth.Year + years)
            ? new DateOnly(birth.Year + years, 3, 1)
            : birth.AddYears(years);

    private static IEnumerable<DateOnly> BirthDays(string birthDate)
    {
        var parts = birthDate.Split('-').Select(p => int.Parse(p, CultureInfo.InvariantCulture)).ToArray();
        var first = new DateOnly(parts[0], parts.ElementAtOrDefault(1) is var m and > 0 ? m : 1, parts.ElementAtOrDefault(2) is var d and > 0 ? d : 1);
        var end = parts.Length switch { 1 => first.AddYears(1), 2 => first.AddMonths(1), _ => first.AddDays(1) };
        for (var day = first; day < end; day = day.AddDays(1))
        {
            yield return day;
        }
    }
}
