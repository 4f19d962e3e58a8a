using AirwayGuard.Core.Ports;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Where steps stop before each call to a port until the schedule lets them go on. Everything runs on one thread.</summary>
internal sealed class Turns
{
    private readonly AsyncLocal<Fibre?> _current = new();
    private readonly int _thread = Environment.CurrentManagedThreadId;

    /// <summary>Calls pass without stopping and without faults.</summary>
    public bool IsStraight { get; set; }

    public async Task<StepResult> StartAsync(Fibre fibre, IStep step)
    {
        _current.Value = fibre;
        return await step.StepAsync(CancellationToken.None);
    }

    /// <summary>To be awaited before a call.</summary>
    public PendingCall Before(string name, HttpRequestMessage? request)
    {
        if (Environment.CurrentManagedThreadId != _thread)
        {
            throw new InvalidOperationException($"{name} was called from another thread than the schedule's: the run is not repeatable.");
        }

        var call = new PendingCall(name, request);
        if (IsStraight)
        {
            call.Decided(Fate.Proceed);
            return call;
        }

        var fibre = _current.Value ?? throw new InvalidOperationException($"{name} was called outside a step.");
        fibre.At = call;
        return call;
    }
}
