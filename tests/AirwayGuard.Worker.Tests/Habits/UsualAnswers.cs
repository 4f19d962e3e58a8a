using AirwayGuard.TestKit.Habits;
using Xunit;

namespace AirwayGuard.Worker.Tests.Habits;

/// <summary>What the sandbox as it is answers to the probe.</summary>
public sealed class UsualAnswers : IAsyncLifetime
{
    public string Said { get; private set; } = "";

    public async ValueTask InitializeAsync() => Said = await HabitProbe.AnswersAsync(HabitCatalog.None);

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
