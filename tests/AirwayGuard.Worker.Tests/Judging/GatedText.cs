using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Tests.Judging;

/// <summary>Charted words that wait at a gate, so that a test can act in the middle of a judgement.</summary>
internal sealed class GatedText : IChartedText, IDisposable
{
    private readonly SemaphoreSlim _entered = new(0);
    private readonly ManualResetEventSlim _gate = new();

    public Task<bool> EnteredAsync(CancellationToken stop) => _entered.WaitAsync(TimeSpan.FromSeconds(30), stop);

    public void Open() => _gate.Set();

    public string? ValueOf(ReadOnlySpan<byte> body, int ordinal)
    {
        _entered.Release();
        return _gate.Wait(TimeSpan.FromSeconds(30)) ? "220 mmHg" : throw new TimeoutException("The test never opened the gate.");
    }

    public void Dispose()
    {
        _entered.Dispose();
        _gate.Dispose();
    }
}
