using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;

namespace AirwayGuard.Worker;

/// <summary>
/// A claim that came to nothing since the disk had no room is given back without counting as a try, before anything else is claimed:
/// so nothing is set aside for a full disk, however long that lasts.
/// </summary>
/// <param name="release">The ledger's verb for it.</param>
public sealed class ClaimReturn(Func<Work, CancellationToken, ValueTask<Committed>> release)
{
    private Work? _held;

    /// <summary>Gives a claim back now, or as soon as there is room for that.</summary>
    public async ValueTask TakeAsync(Work work, CancellationToken stop)
    {
        _held = work;
        try
        {
            await GiveAsync(stop);
        }
        catch (Exception trouble) when (DiskFull.IsMeantBy(trouble))
        {
            // It is held, and comes first next time; whoever met the full disk before tells it.
            return;
        }
    }

    /// <summary>Gives back what is held. Throws where there is still no room.</summary>
    public async ValueTask GiveAsync(CancellationToken stop)
    {
        if (_held is { } work)
        {
            await release(work, stop);
            _held = null;
        }
    }
}
