using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Backlog;

/// <summary>A step whose pace is measured: a run that did work got one piece done, one that backs off got none.</summary>
public sealed class PacedStep(IStep step, Pace pace, TimeProvider clock) : IStep
{
    public string Name => step.Name;

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var began = clock.GetTimestamp();
        var result = await step.StepAsync(stop);
        if (result != StepResult.Idle)
        {
            pace.Ran(clock.GetElapsedTime(began), result == StepResult.DidWork ? 1 : 0);
        }

        return result;
    }
}
