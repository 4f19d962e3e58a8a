using System.Collections.Concurrent;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>Counts each caller's requests of a second. Callers are known ones, so there are as many counters as clients.</summary>
/// <param name="mostASecond">Requests a second that one caller may send, 1 or more.</param>
internal sealed class CallerLimits(int mostASecond, TimeProvider clock)
{
    /// <summary>The caller where nobody is asked who they are.</summary>
    public const string Loopback = "loopback";

    private readonly ConcurrentDictionary<string, Counter> _counters = new(StringComparer.Ordinal);

    /// <returns>Null where the request may go on; 429 with the seconds to wait where the caller sent too many in this second.</returns>
    public HookRefusal? Admit(string caller) =>
        _counters.GetOrAdd(caller, static _ => new Counter()).Next(clock.GetUtcNow().ToUnixTimeSeconds()) <= mostASecond
            ? null
            : new HookRefusal(StatusCodes.Status429TooManyRequests, Codes.HookTooMany, "request", "More requests came in this second than one caller may send.", 1);

    private sealed class Counter
    {
        private readonly Lock _lock = new();
        private long _second;
        private long _count;

        public long Next(long second)
        {
            lock (_lock)
            {
                (_second, _count) = second == _second ? (second, _count + 1) : (second, 1);
                return _count;
            }
        }
    }
}
