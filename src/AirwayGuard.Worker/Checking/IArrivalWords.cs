using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Worker.Checking;

/// <summary>Names of entities, and the arrivals in which the words of a finding stand.</summary>
public interface IArrivalWords : IEntityNames
{
    /// <summary>The arrival at a position, with its body.</summary>
    ValueTask<Arrival?> ArrivalAsync(Position position, CancellationToken stop);
}
