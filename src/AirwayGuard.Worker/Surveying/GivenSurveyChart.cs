using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Worker.Surveying;

/// <summary>Given resources as a survey looks at them: of several versions of one the latest counts.</summary>
public sealed class GivenSurveyChart : ISurveyChart
{
    private readonly EntityTable _entities = new();
    private readonly MemoryChart _chart = new();
    private readonly List<ReadArrival> _latest;

    /// <param name="problems">Gets what could not be read at all.</param>
    public GivenSurveyChart(IReadOnlyList<CheckInput> inputs, IArrivalReader reader, ICollection<Problem> problems)
    {
        var read = new List<ReadArrival>(inputs.Count);
        foreach (var input in inputs)
        {
            var reading = new Reading();
            reader.Read(input.Arrival, _entities, reading);
            foreach (var problem in reading.Readable ? [] : reading.Problems)
            {
                problems.Add(problem.Where.Length == 0 ? problem with { Where = input.Where } : problem);
            }

            read.Add(new ReadArrival(input.Arrival, reading));
        }

        var waves = VersionWaves.Of(read);
        foreach (var one in waves.SelectMany(wave => wave))
        {
            _entities.Identify(one.Reading.Self, one.Reading.Identifier);
        }

        foreach (var wave in waves)
        {
            _chart.Keep(wave);
        }

        _latest = [.. VersionWaves.Latest(waves)];
        LatestAt = LatestTime.Of(_latest, inputs, []);
    }

    /// <summary>The latest time that the resources carry, UTC ticks; null where none does.</summary>
    public long? LatestAt { get; }

    public ValueTask<IReadOnlyList<Entity>> OutletsAsync(CancellationToken stop) => ValueTask.FromResult<IReadOnlyList<Entity>>(
        [.. _latest.SelectMany(one => one.Reading.Facts).Where(fact => WallOutlets.IsTold(fact)).Select(fact => fact.About).Distinct().Order()]);

    public ValueTask<TimelineLease> LoadAsync(Entity entity, CancellationToken stop) => ValueTask.FromResult(_chart.Load(entity, _chart.Newest));

    public ValueTask<IReadOnlyList<Arrival>> PlacesAsync(CancellationToken stop) => ValueTask.FromResult<IReadOnlyList<Arrival>>(
        [.. _latest.Select(one => one.Arrival).Where(arrival => arrival is { Kind: ArrivalKind.Resource, Type: "Location" })]);

    public string NameOf(Entity entity) => _entities.NameOf(entity);

    public string IdentityOf(Entity entity) => _entities.IdentityOf(entity);
}
