using System.Collections.Concurrent;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// Where notices pull sweeps forward. A notice is a hint: it names a question to ask, nothing else; notices during a sweep merge
/// into one more, and one that comes too soon after the last stays until its time. Safe for concurrent use; nothing is kept.
/// </summary>
public sealed class NoticeBoard : IDisposable
{
    private readonly ConcurrentDictionary<string, bool> _asked = new(StringComparer.Ordinal);
    private readonly SemaphoreSlim _signal = new(0, 1);

    public bool IsAsked => !_asked.IsEmpty;

    /// <summary>Asks for a quick sweep of this question.</summary>
    public void Pull(string query)
    {
        _asked[query] = true;
        try
        {
            _signal.Release();
        }
        catch (SemaphoreFullException)
        {
            // Somebody is already about to look: one signal is enough.
            return;
        }
    }

    /// <summary>Whether somebody asked, without taking it.</summary>
    public bool Has(string query) => _asked.ContainsKey(query);

    /// <summary>Takes a pull back out: true once after any number of pulls.</summary>
    public bool Take(string query) => _asked.TryRemove(query, out _);

    /// <summary>Waits for a pull, at most this long.</summary>
    public Task WaitAsync(TimeSpan atMost, CancellationToken stop) => _signal.WaitAsync(atMost, stop);

    public void Dispose() => _signal.Dispose();
}
