using System.Runtime.CompilerServices;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>A call to a port that waits for its turn. Who awaits it goes on inline, on the schedule's thread: nothing may run beside it.</summary>
/// <param name="name">What is called, without content.</param>
/// <param name="request">What is asked of the server; null for a call to the ledger.</param>
internal sealed class PendingCall(string name, HttpRequestMessage? request) : INotifyCompletion
{
    private Action? _goOn;
    private Fate? _fate;

    public string Name => name;

    public HttpRequestMessage? Request => request;

    public bool IsCompleted => _fate is not null;

    /// <summary>What a process that has ended waits for.</summary>
    public static PendingCall Never => new("never", request: null);

    public PendingCall GetAwaiter() => this;

    public Fate GetResult() => _fate ?? throw new InvalidOperationException($"{name} goes on before its turn.");

    public void OnCompleted(Action continuation) => _goOn = continuation;

    public void Decided(Fate fate)
    {
        _fate = fate;
        _goOn?.Invoke();
    }
}
