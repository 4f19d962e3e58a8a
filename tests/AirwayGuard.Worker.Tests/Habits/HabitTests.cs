using AirwayGuard.TestKit.Habits;
using Xunit;

namespace AirwayGuard.Worker.Tests.Habits;

/// <summary>The pipeline comes to the same on every server, by configuration alone.</summary>
public sealed class HabitTests(HabitTests.Usual usual) : IClassFixture<HabitTests.Usual>
{
    public static TheoryData<string> Switches => [.. HabitCatalog.Switches.Select(habit => habit.Name)];

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
    public async Task UnderEachHabit_WhatStandsIsTheSame(string name) => await ComesToTheSameAsync(HabitCatalog.Switches.Single(habit => habit.Name == name));

    [Theory]
    [MemberData(nameof(Profiles))]
    public async Task UnderEachProfile_WhatStandsIsTheSame(string name) => await ComesToTheSameAsync(HabitProfiles.All.Single(profile => profile.Name == name));

    private async Task ComesToTheSameAsync(HabitSwitch habit) =>
        Assert.Equal(usual.Standing, await HabitScenario.RunAsync(habit), StringComparer.Ordinal);

    /// <summary>What stands at the end of the day on the sandbox as it is.</summary>
    public sealed class Usual : IAsyncLifetime
    {
        public IReadOnlyList<string> Standing { get; private set; } = [];

        public async ValueTask InitializeAsync() => Standing = await HabitScenario.RunAsync(HabitCatalog.None);

        public ValueTask DisposeAsync() => ValueTask.CompletedTask;
    }
}
