using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// Age bands at an event: its calendar date at its own offset minus the birth date (docs/meanings.md). A birth date of lower
/// precision leaves every band possible that some day of it allows.
/// </summary>
public static class Ages
{
    /// <summary>What an age is told from.</summary>
    public static ImmutableArray<Concept> Reads { get; } = [Concepts.BirthDate, Concepts.GestationalAgeAtBirth];

    private const int NeonateLastDay = 28, TermDays = 280, PretermBelowDays = 259, AdultYears = 18, CorrectedUntilYears = 2;

    /// <summary>The bands possible at an event, as an inclusive range; both equal where one is certain.</summary>
    /// <returns>False where no birth date is charted (all four are possible) or it lies in the future (none is).</returns>
    public static bool TryBands(in Timeline timeline, long at, short offsetMinutes, out AgeBand youngest, out AgeBand oldest, out bool isFuture)
    {
        (youngest, oldest, isFuture) = (AgeBand.Neonate, AgeBand.Adult, false);
        if (!TryBirthDate(timeline, out var earliest, out var latest))
        {
            return false;
        }

        var day = DateOnly.FromDateTime(new DateTime(Math.Max(0, at + (offsetMinutes * TimeSpan.TicksPerMinute)), DateTimeKind.Unspecified));
        if (earliest > day)
        {
            isFuture = true;
            return false;
        }

        var early = PretermDays(timeline);
        oldest = BandOf(earliest, day, early);
        youngest = BandOf(latest > day ? day : latest, day, early);
        return true;
    }

    /// <summary>The band of one certain birth date.</summary>
    /// <param name="daysEarly">Days born before term where birth was before 37 weeks; else 0.</param>
    public static AgeBand BandOf(DateOnly birth, DateOnly day, int daysEarly)
    {
        var counted = daysEarly > 0 && day < Birthday(birth, CorrectedUntilYears) ? birth.AddDays(daysEarly) : birth;
        if (day.DayNumber - counted.DayNumber <= NeonateLastDay)
        {
            return AgeBand.Neonate;
        }

        return day < Birthday(counted, 1) ? AgeBand.Infant : day < Birthday(counted, AdultYears) ? AgeBand.Child : AgeBand.Adult;
    }

    // 29 February counts as 1 March where the year has none.
    private static DateOnly Birthday(DateOnly birth, int years)
    {
        var year = birth.Year + years;
        return birth is { Month: 2, Day: 29 } && !DateTime.IsLeapYear(year) ? new DateOnly(year, 3, 1) : new DateOnly(year, birth.Month, birth.Day);
    }

    private static bool TryBirthDate(in Timeline timeline, out DateOnly earliest, out DateOnly latest)
    {
        foreach (ref readonly var fact in timeline.Of(Concepts.BirthDate))
        {
            if (fact.About != timeline.Patient || fact.Value.Kind != ValueKind.Date)
            {
                continue;
            }

            var (year, month, day) = ((int)(fact.Value.Digits / 10_000), (int)(fact.Value.Digits / 100 % 100), (int)(fact.Value.Digits % 100));
            earliest = new DateOnly(year, fact.Value.Scale >= 6 ? month : 1, fact.Value.Scale >= 8 ? day : 1);
            latest = fact.Value.Scale switch
            {
                >= 8 => earliest,
                >= 6 => earliest.AddMonths(1).AddDays(-1),
                _ => earliest.AddYears(1).AddDays(-1),
            };
            return true;
        }

        (earliest, latest) = (default, default);
        return false;
    }

    private static int PretermDays(in Timeline timeline)
    {
        var facts = timeline.Of(Concepts.GestationalAgeAtBirth);
        for (var i = facts.Length - 1; i >= 0; i--)
        {
            if (facts[i].About == timeline.Patient && facts[i].Value.IsNumber
                && Durations.TrySeconds(facts[i].Value.Amount, facts[i].Value.Unit, out var seconds))
            {
                var days = seconds / 86_400m;
                return days < PretermBelowDays ? (int)Math.Round(TermDays - days, MidpointRounding.AwayFromZero) : 0;
            }
        }

        return 0;
    }
}
