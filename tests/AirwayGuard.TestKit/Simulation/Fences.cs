using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>The newest claim of each patient, over all processes, and how often an older one was refused.</summary>
internal sealed class Fences
{
    private readonly Dictionary<Entity, long> _newest = [];

    /// <summary>Decisions and receipts that came too late.</summary>
    public int Refused { get; private set; }

    public void Claimed(Work? work)
    {
        if (work is { Kind: WorkKind.Judge })
        {
            _newest[work.Patient] = work.Fence;
        }
    }

    public long Newest(Entity patient) => _newest[patient];

    public Committed Note(Committed committed)
    {
        Refused += committed == Committed.StaleFence ? 1 : 0;
        return committed;
    }
}
