using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Intake;

namespace AirwayGuard.Worker.Sending;

/// <summary>
/// Writes that were refused as a server, or what stands before it, refuses everybody for a while (HTTP 3xx, 403, 404, 407). Such a refusal
/// is final only where it comes again after the server was seen to answer others; until then the write waits, as through any outage.
/// Nothing is kept over a restart: it is looked at anew.
/// </summary>
/// <param name="contact">Null where nothing is known of the server's answers: then each refusal is final.</param>
internal sealed class RefusedWrites(ServerContact? contact)
{
    private readonly Dictionary<Guid, (DateTimeOffset First, int Times)> _waiting = [];

    /// <param name="lastTaken">When the server last took a write.</param>
    /// <returns>How often in a row it has been refused so, where it waits; 0 where the answer is what it says.</returns>
    public int Wait(Guid key, SinkAnswer answer, DateTimeOffset now, DateTimeOffset lastTaken)
    {
        if (contact is null || answer is not { State: SendState.Parked, MayBeOutage: true })
        {
            _waiting.Remove(key);
            return 0;
        }

        var (first, times) = _waiting.GetValueOrDefault(key, (now, 0));
        if (times > 0 && !contact.RefusesNearlyAll && (lastTaken > first || contact.LastAnswer > first))
        {
            _waiting.Remove(key);
            return 0;
        }

        _waiting[key] = (first, times + 1);
        return times + 1;
    }
}
