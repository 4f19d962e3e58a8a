using System.Collections.Concurrent;
using AirwayGuard.TestKit.Simulation;
using Xunit;

namespace AirwayGuard.Worker.Tests.Simulation;

/// <summary>The pipeline under faults, ends of its process and every order of its steps (design: nothing lost, nothing doubled).</summary>
public sealed class SimulatorTests
{
    private const int Seeds = 100;

    [Fact]
    public async Task AHundredSchedulesEndWhereARunWithoutFaultsEnds()
    {
        var failed = new ConcurrentBag<SimulationOutcome>();
        var (faults, ends, findings) = (0, 0, 0);
        await Parallel.ForEachAsync(Enumerable.Range(1, Seeds), TestContext.Current.CancellationToken, async (seed, _) =>
        {
            var outcome = await Simulator.RunAsync(seed);
            Interlocked.Add(ref faults, outcome.Faults);
            Interlocked.Add(ref ends, outcome.Ends);
            Interlocked.Add(ref findings, outcome.Findings.Count);
            if (!outcome.Held)
            {
                failed.Add(outcome);
            }
        });

        Assert.True(failed.IsEmpty, string.Join('\n', failed.OrderBy(outcome => outcome.Schedule.Count).Take(1).Select(outcome => outcome.Describe())));
        Assert.True(faults > Seeds && ends > Seeds && findings > Seeds, $"{faults} faults, {ends} ends and {findings} findings try little.");
    }

    [Fact]
    public async Task TheSameSeedGivesTheSameScheduleAndTheSameFindings()
    {
        var (first, second) = (await Simulator.RunAsync(7), await Simulator.RunAsync(7));

        Assert.Equal(first.Schedule, second.Schedule);
        Assert.Equal(first.Findings, second.Findings);
        Assert.NotEqual(first.Schedule, (await Simulator.RunAsync(8)).Schedule);
    }

    [Theory]
    [InlineData(Sabotage.CursorMovesFirst, 4)]
    [InlineData(Sabotage.DueTimesForgotten, 4)]
    [InlineData(Sabotage.CreatesUnconditionally, 7)]
    [InlineData(Sabotage.OutboxForgotten, 4)]
    public async Task APromiseBrokenOnPurposeIsNoticed(Sabotage sabotage, int seed)
    {
        // That the seed holds without it is among the hundred.
        Assert.NotEmpty((await Simulator.RunAsync(seed, sabotage)).Broken);
    }
}
