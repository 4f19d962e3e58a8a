using AirwayGuard.Core.Ports;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>One step of the service as the schedule sees it: at rest, before a call to a port, or waiting for time.</summary>
internal sealed class Fibre(IStep step)
{
    public string Name => step.Name;

    public Task<StepResult>? Running { get; private set; }

    /// <summary>The call it stands before.</summary>
    public PendingCall? At { get; set; }

    public bool IsAtRest => Running is null;

    public bool MayGoOn => Running is null || At is not null;

    /// <summary>Goes on to the next call, the next wait or the end of the step.</summary>
    /// <param name="decide">Says what becomes of the call it stands before.</param>
    public void GoOn(Turns turns, Func<PendingCall, Fate> decide)
    {
        if (Running is null)
        {
            Running = turns.StartAsync(this, step);
        }
        else if (At is { } call)
        {
            At = null;
            call.Decided(decide(call));
        }
    }

    /// <summary>The answer of a step that has ended; null while it goes on.</summary>
    /// <exception cref="Exception">What the step threw.</exception>
    public async Task<StepResult?> TakeResultAsync()
    {
        if (Running is not { IsCompleted: true } done)
        {
            return null;
        }

        Running = null;
        return await done;
    }
}
