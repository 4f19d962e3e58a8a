using System.Collections.Concurrent;

namespace AirwayGuard.Worker.Backlog;

/// <summary>
/// How far the pass under way of each question has come by the server's clock, and how fast it moves. Safe for concurrent use; nothing
/// is kept over a restart.
/// </summary>
public sealed class ReadingProgress
{
    private readonly ConcurrentDictionary<string, Way> _ways = new(StringComparer.Ordinal);

    /// <summary>A page came of a pass that goes on.</summary>
    /// <param name="newest">The newest change of the page, by the server's stamp; null where none is stamped.</param>
    /// <param name="until">Where the pass ends: the server's time of its first page.</param>
    public void Came(string query, DateTimeOffset now, DateTimeOffset? newest, DateTimeOffset until)
    {
        if (newest is { } at)
        {
            // The first page is where it starts from: how long that took is not known.
            _ways.AddOrUpdate(query, _ => new Way(now, at, now, at, until), (_, way) => way with { Now = now, At = at, Until = until });
        }
    }

    /// <summary>A pass came to its end, or is to be asked anew after trouble.</summary>
    public void Ended(string query) => _ways.TryRemove(query, out _);

    /// <summary>How long the pass under way still takes at the pace it has had so far; null where none is, or it has not moved yet.</summary>
    public TimeSpan? RemainingOf(string query) =>
        !_ways.TryGetValue(query, out var way) || way.At <= way.From || way.Now <= way.Began ? null
            : way.At >= way.Until ? TimeSpan.Zero
            : (way.Until - way.At) * ((way.Now - way.Began) / (way.At - way.From));

    private sealed record Way(DateTimeOffset Began, DateTimeOffset From, DateTimeOffset Now, DateTimeOffset At, DateTimeOffset Until);
}
