namespace AirwayGuard.Core.Ports;

/// <summary>A hosted service is a thin loop around one of these. It does one bounded piece of work, starts no task, and nothing else awaits a port.</summary>
public interface IStep
{
    string Name { get; }

    ValueTask<StepResult> StepAsync(CancellationToken stop);
}

/// <summary>What a step has to say to the loop around it.</summary>
public enum StepResult : byte
{
    DidWork, Idle, BackOff,
}
