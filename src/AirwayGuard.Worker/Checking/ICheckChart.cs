using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Checking;

/// <summary>Where a single run keeps what it read: memory, or a ledger. Both must give the same report.</summary>
public interface ICheckChart : IArrivalWords
{
    IEntityInterner Entities { get; }

    /// <summary>Keeps arrivals as known together.</summary>
    /// <returns>The newest position afterwards.</returns>
    ValueTask<Position> KeepAsync(IReadOnlyList<ReadArrival> arrivals, CancellationToken stop);

    ValueTask<TimelineLease> LoadAsync(Entity patient, Position asKnownAt, CancellationToken stop);
}
