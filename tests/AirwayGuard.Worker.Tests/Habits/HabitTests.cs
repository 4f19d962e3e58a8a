using AirwayGuard.TestKit.Habits;
using Xunit;

namespace AirwayGuard.Worker.Tests.Habits;

/// <summary>The pipeline comes to the same on every server, by configuration alone. Every second habit is here, the others in <see cref="OtherHabitTests"/>.</summary>
public sealed class HabitTests(UsualDay usual) : IClassFixture<UsualDay>
{
    public static TheoryData<string> Switches => [.. HabitCatalog.Switches.Where((_, place) => IsHere(place)).Select(habit => habit.Name)];

    public static TheoryData<string> Profiles => [.. HabitProfiles.All.Select(profile => profile.Name)];

    [Fact]
    public void TheDayHoldsEverythingThatBecomesOfAFinding()
    {
        var flags = usual.Standing.Where(line => line.StartsWith("Flag ", StringComparison.Ordinal)).Select(line => line.Split(' ')[2]).Order(StringComparer.Ordinal);
        var issues = usual.Standing.Where(line => line.StartsWith("DetectedIssue ", StringComparison.Ordinal)).Select(line => line.Split(' ')[2]).Order(StringComparer.Ordinal);

        Assert.Equal(["inactive", "inactive", "inactive"], flags, StringComparer.Ordinal);
        Assert.Equal(["entered-in-error", "final"], issues.Distinct(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.Equal(3, usual.Standing.Count(line => line.StartsWith("Spell vacuum-above-ceiling ClosedByPerson", StringComparison.Ordinal)));
        Assert.Contains("pending 0 unknown 0 parked 0 waiting 0", usual.Standing, StringComparer.Ordinal);
        Assert.Contains("audit None", usual.Standing, StringComparer.Ordinal);
        Assert.Contains("authors 1", usual.Standing, StringComparer.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Switches))]
    public Task UnderEachHabit_WhatStandsIsTheSame(string name) => usual.IsWhatStandsUnderAsync(HabitCatalog.Switches.Single(habit => habit.Name == name));

    [Theory]
    [MemberData(nameof(Profiles))]
    public Task UnderEachProfile_WhatStandsIsTheSame(string name) => usual.IsWhatStandsUnderAsync(HabitProfiles.All.Single(profile => profile.Name == name));

    /// <summary>Of any place in the catalog: it is either tested here or there.</summary>
    internal static bool IsHere(int place) => place % 2 == 0;
}
