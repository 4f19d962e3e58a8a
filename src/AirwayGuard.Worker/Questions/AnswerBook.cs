using System.Collections.Concurrent;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Questions;

/// <summary>
/// Answers that were given and wait to be kept, many in one commit. Whoever signs an order does not wait for the disk, and a full disk takes
/// no card away; what waits is kept within moments, before feedback on it, and at the stop. Safe for concurrent use.
/// </summary>
public sealed class AnswerBook(ILedger ledger) : IStep, IDisposable
{
    /// <summary>So many may wait; then each is kept before it is given.</summary>
    public const int Most = 10_000;

    // Charting waits behind them.
    private const int MostAtOnce = 200;

    private readonly ConcurrentQueue<HookAnswer> _waiting = new();
    private readonly SemaphoreSlim _one = new(1, 1);

    // Those being kept; where that fails they stay, before all that wait.
    private readonly List<HookAnswer> _taken = [];

    public string Name => "answers";

    /// <summary>How many wait.</summary>
    public int Waiting => _waiting.Count + _taken.Count;

    /// <summary>Takes an answer down.</summary>
    public async ValueTask AddAsync(HookAnswer answer, CancellationToken stop)
    {
        if (_waiting.Count >= Most)
        {
            await ledger.AnswerAsync([answer], stop);
            return;
        }

        _waiting.Enqueue(answer);
    }

    /// <summary>Keeps what waits. What could not be kept waits on, in its order.</summary>
    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        await _one.WaitAsync(stop);
        try
        {
            // What comes meanwhile waits for the next step.
            for (var left = Waiting; left > 0;)
            {
                left -= await KeepSomeAsync(stop);
            }

            return StepResult.Idle;
        }
        finally
        {
            _one.Release();
        }
    }

    public void Dispose() => _one.Dispose();

    private async ValueTask<int> KeepSomeAsync(CancellationToken stop)
    {
        while (_taken.Count < MostAtOnce && _waiting.TryDequeue(out var next))
        {
            _taken.Add(next);
        }

        await ledger.AnswerAsync(_taken, stop);
        var kept = _taken.Count;
        _taken.Clear();
        return kept;
    }
}
