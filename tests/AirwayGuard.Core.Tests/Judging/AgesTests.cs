using AirwayGuard.Core.Judging;
using Xunit;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Age bands: the first and last day of each.</summary>
public sealed class AgesTests
{
    [Theory]
    [InlineData("2026-03-01", "2026-03-01", 0, AgeBand.Neonate)]
    [InlineData("2026-02-01", "2026-03-01", 0, AgeBand.Neonate)] // day 28
    [InlineData("2026-01-31", "2026-03-01", 0, AgeBand.Infant)] // day 29
    [InlineData("2025-03-02", "2026-03-01", 0, AgeBand.Infant)]
    [InlineData("2025-03-01", "2026-03-01", 0, AgeBand.Child)] // first birthday
    [InlineData("2008-03-02", "2026-03-01", 0, AgeBand.Child)]
    [InlineData("2008-03-01", "2026-03-01", 0, AgeBand.Adult)] // 18th birthday
    [InlineData("2008-02-29", "2026-02-28", 0, AgeBand.Child)] // 29 February counts as 1 March
    [InlineData("2008-02-29", "2026-03-01", 0, AgeBand.Adult)]
    [InlineData("2025-12-01", "2026-03-01", 84, AgeBand.Neonate)] // born at 28 weeks, 90 days old: 6 days past term
    [InlineData("2025-10-01", "2026-03-01", 84, AgeBand.Infant)]
    [InlineData("2024-03-01", "2026-03-01", 84, AgeBand.Child)] // no correction from the second birthday on
    [InlineData("2024-12-20", "2026-03-01", 84, AgeBand.Infant)] // 14 months, corrected 11
    public void ABandFollowsTheCalendar(string born, string day, int daysEarly, AgeBand expected) =>
        Assert.Equal(expected, Ages.BandOf(DateOnly.Parse(born, System.Globalization.CultureInfo.InvariantCulture), DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture), daysEarly));
}
