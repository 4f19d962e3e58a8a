using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Worker.Surveying;

/// <summary>What a survey looks at: given resources, or a ledger. Both must give the same report.</summary>
public interface ISurveyChart : IEntityNames
{
    /// <summary>What is told to be a wall outlet by rows that stand.</summary>
    ValueTask<IReadOnlyList<Entity>> OutletsAsync(CancellationToken stop);

    /// <summary>Everything that stands now.</summary>
    ValueTask<TimelineLease> LoadAsync(Entity entity, CancellationToken stop);

    /// <summary>The versions of Locations that stand.</summary>
    ValueTask<IReadOnlyList<Arrival>> PlacesAsync(CancellationToken stop);
}
