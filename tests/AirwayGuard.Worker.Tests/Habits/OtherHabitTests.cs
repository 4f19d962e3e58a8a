using AirwayGuard.TestKit.Habits;
using Xunit;

namespace AirwayGuard.Worker.Tests.Habits;

/// <summary>The habits that <see cref="HabitTests"/> leaves out; a class of its own, so that the two run beside each other.</summary>
public sealed class OtherHabitTests(UsualDay usual) : IClassFixture<UsualDay>
{
    public static TheoryData<string> Switches => [.. HabitCatalog.Switches.Where((_, place) => !HabitTests.IsHere(place)).Select(habit => habit.Name)];

    [Theory]
    [MemberData(nameof(Switches))]
    public Task UnderEachHabit_WhatStandsIsTheSame(string name) => usual.IsWhatStandsUnderAsync(HabitCatalog.Switches.Single(habit => habit.Name == name));
}
