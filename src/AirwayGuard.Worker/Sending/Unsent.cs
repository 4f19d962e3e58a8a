using System.Globalization;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Sending;

/// <summary>How long messages have waited to be sent, as the ledger knows it. Safe for concurrent use.</summary>
public sealed class Unsent
{
    private readonly Lock _gate = new();

    private DateTimeOffset? _firstSeen;
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

    /// <param name="isLong">Whether what has waited since a time is to be told.</param>
    public void Look(LedgerState state, DateTimeOffset now, Func<DateTimeOffset, bool> isLong)
    {
        lock (_gate)
        {
            if (state.Pending + state.Unknown == 0)
            {
                (_firstSeen, _oldest, _told) = (null, null, null);
                return;
            }

            _firstSeen ??= now;
            _oldest = state.WaitingSince ?? _firstSeen;
            _told = isLong(_oldest.Value) ? new UnsentNote(state.Pending + state.Unknown, _oldest.Value) : null;
        }
    }
}

/// <summary>Messages that have waited for long.</summary>
/// <param name="Since">When the oldest was first due; by our clock.</param>
public sealed record UnsentNote(long Messages, DateTimeOffset Since)
{
    /// <summary>E.g. <c>3 findings are not on the server as they stand since 2026-03-02T08:00:05Z</c>.</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{Messages} {(Messages == 1 ? "finding is" : "findings are")} not on the server as {(Messages == 1 ? "it stands" : "they stand")}, the oldest since {Since.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss'Z'}");
}
