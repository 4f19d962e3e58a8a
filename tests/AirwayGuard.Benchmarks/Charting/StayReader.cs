using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Benchmarks.Charting;

/// <summary>Reads a stay's resources into facts, with the names given by whoever keeps them.</summary>
internal sealed class StayReader(IEntityInterner entities)
{
    private readonly FhirArrivalReader _reader = new(ShippedMaps.WithDemoRows);

    /// <exception cref="InvalidOperationException">A row gave no fact or a problem: the measurement would be of something else.</exception>
    public ReadArrival Read(Arrival arrival)
    {
        var reading = new Reading();
        _reader.Read(arrival, entities, reading);
        return reading.Readable && reading.Problems.Count == 0 && reading.Facts.Count > 0
            ? new ReadArrival(arrival, reading)
            : throw new InvalidOperationException($"A resource of type {arrival.Type} of the stay was not read: {string.Join(", ", reading.Problems.Select(problem => problem.Code.Id))}");
    }

    public List<ReadArrival> Read(IEnumerable<Arrival> arrivals) => [.. arrivals.Select(Read)];
}
