using System.Collections.Immutable;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>
/// The set of one address: used for 10 minutes or the server's max-age where that is shorter, at least for one, then asked for again
/// when it is next used. While that fails the old set stays usable until an hour after it was fetched.
/// </summary>
internal sealed class AddressKeys(Uri address, KeySetFetch fetch, TimeProvider clock)
{
    private static readonly TimeSpan LongestFresh = TimeSpan.FromMinutes(10), ShortestFresh = TimeSpan.FromMinutes(1), Usable = TimeSpan.FromHours(1);

    private readonly Lock _lock = new();
    private readonly FetchLimits _limits = new(clock);
    private Fetched? _set;
    private Task? _underWay;

    public async ValueTask<KeyAnswer> FindAsync(string kid, string algorithm, CancellationToken cancellation)
    {
        var asked = false;
        if (Current() is not { } fresh || !fresh.IsFresh(clock))
        {
            asked = await RefreshAsync(null, cancellation);
        }

        var answer = Find(kid, algorithm);
        if (answer.Keys.IsEmpty && !asked && await RefreshAsync(kid, cancellation))
        {
            answer = Find(kid, algorithm);
        }

        return answer;
    }

    private KeyAnswer Find(string kid, string algorithm)
    {
        if (Current() is not { } set || clock.GetElapsedTime(set.At) >= Usable)
        {
            return KeyAnswer.Unread;
        }

        // While the set cannot be had, a key that the old one lacks may well be published.
        var answer = KeyAnswer.Of(set.Keys, kid, algorithm, clock.GetUtcNow());
        return answer.Keys.IsEmpty && HasFailed() ? KeyAnswer.Unread : answer;
    }

    private bool HasFailed()
    {
        lock (_lock)
        {
            return _limits.HasFailed;
        }
    }

    private Fetched? Current()
    {
        lock (_lock)
        {
            return _set;
        }
    }

    /// <summary>Waits for the question that is under way, or begins one where the limits allow it.</summary>
    /// <returns>True where there was one.</returns>
    private async ValueTask<bool> RefreshAsync(string? unknownKid, CancellationToken cancellation)
    {
        Task underWay;
        lock (_lock)
        {
            if (_underWay is null)
            {
                if (!_limits.TryBegin(unknownKid))
                {
                    return false;
                }

                // It serves every caller that waits, so none of them ends it; it has its own five seconds.
                _underWay = Task.Run(FetchAsync, CancellationToken.None);
            }

            underWay = _underWay;
        }

        await underWay.WaitAsync(cancellation);
        return true;
    }

    private async Task FetchAsync()
    {
        var at = clock.GetTimestamp();
        (ImmutableArray<HookKey> Keys, TimeSpan? MaxAge)? answer = null;
        try
        {
            answer = await fetch.FetchAsync(address);
        }
        finally
        {
            lock (_lock)
            {
                _set = answer is { } read ? new Fetched(read.Keys, at, FreshFor(read.MaxAge)) : _set;
                _limits.End(answer is not null);
                _underWay = null;
            }
        }
    }

    private static TimeSpan FreshFor(TimeSpan? maxAge) =>
        maxAge is not { } stated || stated > LongestFresh ? LongestFresh : stated < ShortestFresh ? ShortestFresh : stated;

    private sealed record Fetched(ImmutableArray<HookKey> Keys, long At, TimeSpan FreshFor)
    {
        public bool IsFresh(TimeProvider clock) => clock.GetElapsedTime(At) < FreshFor;
    }
}
