namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>
/// When a set may be asked for: at most 10 times a minute, once a minute for one unknown kid, and not within a minute of a failure.
/// It remembers only kids that led to a question, so at most 10. Not for use by several threads at once.
/// </summary>
internal sealed class FetchLimits(TimeProvider clock)
{
    private const int MostAMinute = 10;

    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    private readonly Queue<(long At, string? Kid)> _asked = new(MostAMinute);
    private long? _failed;

    /// <summary>True where the last question brought no set.</summary>
    public bool HasFailed => _failed is not null;

    /// <param name="unknownKid">The kid that is asked for; null where the set is old.</param>
    public bool TryBegin(string? unknownKid)
    {
        while (_asked.TryPeek(out var oldest) && clock.GetElapsedTime(oldest.At) >= Minute)
        {
            _asked.Dequeue();
        }

        if (_asked.Count >= MostAMinute || (_failed is { } failed && clock.GetElapsedTime(failed) < Minute)
            || (unknownKid is not null && _asked.Any(one => string.Equals(one.Kid, unknownKid, StringComparison.Ordinal))))
        {
            return false;
        }

        _asked.Enqueue((clock.GetTimestamp(), unknownKid));
        return true;
    }

    public void End(bool wasRead) => _failed = wasRead ? null : clock.GetTimestamp();
}
