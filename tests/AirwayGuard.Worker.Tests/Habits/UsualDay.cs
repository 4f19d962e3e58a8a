using AirwayGuard.TestKit.Habits;
using Xunit;

namespace AirwayGuard.Worker.Tests.Habits;

/// <summary>What stands at the end of the day on the sandbox as it is.</summary>
public sealed class UsualDay : IAsyncLifetime
{
    public IReadOnlyList<string> Standing { get; private set; } = [];

    public async ValueTask InitializeAsync() => Standing = await HabitScenario.RunAsync(HabitCatalog.None);

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    internal async Task IsWhatStandsUnderAsync(HabitSwitch habit) => Assert.Equal(Standing, await HabitScenario.RunAsync(habit), StringComparer.Ordinal);
}
