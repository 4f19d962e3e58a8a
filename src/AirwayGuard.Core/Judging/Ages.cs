using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// Age bands at an event: its calendar date at its own offset minus the birth date (docs/meanings.md). A birth date of lower
/// precision leaves every band possible that some day of it allows, and so does a gestational age that cannot be read.
/// </summary>
public static class Ages
{
    /// <summary>What an age is told from.</summary>
    public static ImmutableArray<Concept> Reads { get; } = [Concepts.BirthDate, Concepts.GestationalAgeAtBirth];

    // A gestation that cannot be read may have been as short as 20 weeks: from memory, no child born earlier has lived.
    private const int MostDaysEarly = 140;

    private const int NeonateLastDay = 28, TermDays = 280, PretermBelowDays = 259, AdultYears = 18, CorrectedUntilYears = 2;

    /// <summary>The bands possible at an event, as an inclusive range; both equal where one is certain.</summary>
    /// <returns>False where no birth date is charted (all four are possible) or it lies in the future (none is).</returns>
    public static bool TryBands(in Timeline timeline, long at, short offsetMinutes, out AgeBand youngest, out AgeBand oldest, out bool isFuture)
    {
        Bands(timeline, at, offsetMinutes, out youngest, out oldest, out var lacks);
        isFuture = lacks == Missing.AgeInBirthDate;
        return !isFuture && TryBirthDate(timeline, out _, out _);
    }

    /// <param name="lacks">What would tell the one band; nothing where one is certain.</param>
    internal static void Bands(in Timeline timeline, long at, short offsetMinutes, out AgeBand youngest, out AgeBand oldest, out Missing lacks)
    {
        (youngest, oldest, lacks) = (AgeBand.Neonate, AgeBand.Adult, Missing.BirthDate);
        if (!TryBirthDate(timeline, out var earliest, out var latest))
        {
            return;
        }

        var day = DateOnly.FromDateTime(new DateTime(Math.Max(0, at + (offsetMinutes * TimeSpan.TicksPerMinute)), DateTimeKind.Unspecified));
        if (earliest > day)
        {
            lacks = Missing.AgeInBirthDate;
            return;
        }

        latest = latest > day ? day : latest;
        var (fewest, most) = DaysEarly(timeline);
        oldest = BandOf(earliest, day, fewest);
        youngest = BandOf(latest, day, most);
        lacks = youngest == oldest ? Missing.Nothing
            : fewest != most && BandOf(latest, day, fewest) == oldest ? Missing.GestationalAge
            : Missing.BirthDate;
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

    // The fewest and the most days born before term that the charting allows; of one instant, what can be read counts.
    private static (int Fewest, int Most) DaysEarly(in Timeline timeline)
    {
        var facts = timeline.Of(Concepts.GestationalAgeAtBirth);
        var unread = long.MinValue;
        for (var i = facts.Length - 1; i >= 0; i--)
        {
            if (facts[i].About != timeline.Patient)
            {
                continue;
            }

            if (!facts[i].Value.IsNumber || !Durations.TrySeconds(facts[i].Value.Amount, facts[i].Value.Unit, out var seconds))
            {
                unread = Math.Max(unread, facts[i].EffectiveFrom);
                continue;
            }

            if (unread > facts[i].EffectiveFrom)
            {
                break;
            }

            var days = seconds / 86_400m;
            var early = days < PretermBelowDays ? (int)Math.Round(TermDays - days, MidpointRounding.AwayFromZero) : 0;
            return (early, early);
        }

        return unread == long.MinValue ? (0, 0) : (0, MostDaysEarly);
    }
}
