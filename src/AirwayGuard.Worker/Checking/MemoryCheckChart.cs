using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Checking;

/// <summary>Keeps a single run's facts in memory.</summary>
public sealed class MemoryCheckChart : ICheckChart
{
    private readonly EntityTable _entities = new();
    private readonly MemoryChart _chart = new();
    private readonly List<Arrival> _arrivals = [];

    public IEntityInterner Entities => _entities;

    public ValueTask<Position> KeepAsync(IReadOnlyList<ReadArrival> arrivals, CancellationToken stop)
    {
        foreach (var arrival in arrivals)
        {
            _entities.Identify(arrival.Reading.Self, arrival.Reading.Identifier);
            _arrivals.Add(arrival.Arrival);
        }

        _chart.Keep(arrivals);
        return ValueTask.FromResult(_chart.Newest);
    }

    public ValueTask<TimelineLease> LoadAsync(Entity patient, Position asKnownAt, CancellationToken stop) =>
        ValueTask.FromResult(_chart.Load(patient, asKnownAt));

    public ValueTask<Arrival?> ArrivalAsync(Position position, CancellationToken stop) =>
        ValueTask.FromResult<Arrival?>(_arrivals[(int)position.Value - 1]);

    public string NameOf(Entity entity) => _entities.NameOf(entity);

    public string IdentityOf(Entity entity) => _entities.IdentityOf(entity);
}
