using System.Globalization;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Sending;

/// <summary>
/// How long messages have waited to be sent, as far as this run of the service has seen: the ledger knows their order, not their times. Safe
/// for concurrent use; nothing is kept over a restart.
/// </summary>
public sealed class Unsent
{
    private readonly Lock _gate = new();

    // The newest of those that waited, each time there was a newer one, and when that was seen.
    private readonly Queue<(long Number, DateTimeOffset At)> _seen = new();
    private long _newest;
    private DateTimeOffset? _noneTakenSince;
    private DateTimeOffset? _oldest;
    private UnsentNote? _told;

    /// <summary>Since when the oldest of what waits has waited; null where nothing does.</summary>
    public DateTimeOffset? Oldest
    {
        get
        {
            lock (_gate)
            {
                return _oldest;
            }
        }
    }

    /// <summary>What is to be told; null while nothing waits for long.</summary>
    public UnsentNote? Told
    {
        get
        {
            lock (_gate)
            {
                return _told;
            }
        }
    }

    /// <summary>The server took a message.</summary>
    public void Taken()
    {
        lock (_gate)
        {
            _noneTakenSince = null;
        }
    }

    /// <param name="isLong">Whether what has waited since a time is to be told.</param>
    public void Look(LedgerState state, DateTimeOffset now, Func<DateTimeOffset, bool> isLong)
    {
        lock (_gate)
        {
            if (state is not { FirstQueued: { } first, LastQueued: { } last })
            {
                _seen.Clear();
                (_noneTakenSince, _oldest, _told) = (null, null, null);
                return;
            }

            if (_seen.Count == 0 || last > _newest)
            {
                _seen.Enqueue((last, now));
                _newest = last;
            }

            while (_seen.Count > 1 && _seen.Peek().Number < first)
            {
                _seen.Dequeue();
            }

            // A message that a newer one takes the place of begins anew in the queue, though the server knows neither.
            _noneTakenSince ??= now;
            _oldest = _seen.Peek().At < _noneTakenSince ? _seen.Peek().At : _noneTakenSince;
            _told = isLong(_oldest.Value) ? new UnsentNote(state.Pending + state.Unknown, _oldest.Value) : null;
        }
    }
}

/// <summary>Messages that have waited for long.</summary>
/// <param name="Since">When the oldest was first seen waiting; by our clock.</param>
public sealed record UnsentNote(long Messages, DateTimeOffset Since)
{
    /// <summary>E.g. <c>3 findings are not on the server as they stand since 2026-03-02T08:00:05Z</c>.</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{Messages} {(Messages == 1 ? "finding is" : "findings are")} not on the server as {(Messages == 1 ? "it stands" : "they stand")}, the oldest since {Since.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss'Z'}");
}
