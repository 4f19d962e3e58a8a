using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Backlog;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace AirwayGuard.Worker.Tests.Backlog;

public sealed class PaceTests
{
    [Fact]
    public void BeforeAFewRunsWereMeasured_NothingIsSaid()
    {
        var pace = new Pace();
        Assert.Null(pace.For(1));
        Assert.Equal(TimeSpan.Zero, pace.For(0));
        Run(pace, times: 4, seconds: 2);
        Assert.Null(pace.PerSecond);

        Run(pace, times: 1, seconds: 2);

        Assert.Equal(0.5, pace.PerSecond!.Value, 1e-9);
        Assert.Equal(200, pace.For(100)!.Value.TotalSeconds, 1e-6);
    }

    [Fact]
    public void WhereNothingGetsDone_NobodyKnowsHowLongItTakes()
    {
        var pace = new Pace();

        Run(pace, times: 100, seconds: 1, pieces: 0);

        Assert.Null(pace.PerSecond);
    }

    [Fact]
    public void WhatWasMeasuredLongAgo_CountsForLittle()
    {
        var pace = new Pace();
        Run(pace, times: 1000, seconds: 1);

        Run(pace, times: 1000, seconds: 4);

        Assert.InRange(pace.PerSecond!.Value, 0.25, 0.26);
    }

    [Fact]
    public async Task AStepIsMeasuredWhileItWorks_AndNotWhileItIsIdle()
    {
        var (clock, pace) = (new FakeTimeProvider(), new Pace());
        var results = new Queue<StepResult>([
            .. Enumerable.Repeat(StepResult.DidWork, 5), .. Enumerable.Repeat(StepResult.Idle, 100), .. Enumerable.Repeat(StepResult.BackOff, 5),
        ]);
        var step = new PacedStep(new Slow(clock, results), pace, clock);
        Assert.Equal("slow", step.Name);

        await RunAsync(step, 105);
        Assert.Equal(1 / 3.0, pace.PerSecond!.Value, 1e-9);

        await RunAsync(step, 5);
        Assert.InRange(pace.PerSecond!.Value, 0.16, 0.17);
    }

    private static async Task RunAsync(PacedStep step, int times)
    {
        for (var i = 0; i < times; i++)
        {
            await step.StepAsync(TestContext.Current.CancellationToken);
        }
    }

    private static void Run(Pace pace, int times, double seconds, int pieces = 1)
    {
        for (var i = 0; i < times; i++)
        {
            pace.Ran(TimeSpan.FromSeconds(seconds), pieces);
        }
    }

    private sealed class Slow(FakeTimeProvider clock, Queue<StepResult> results) : IStep
    {
        public string Name => "slow";

        public ValueTask<StepResult> StepAsync(CancellationToken stop)
        {
            clock.Advance(TimeSpan.FromSeconds(3));
            return ValueTask.FromResult(results.Dequeue());
        }
    }
}
