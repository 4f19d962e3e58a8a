using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Ports;

/// <summary>Reads what arrived into facts. Never throws on input: trouble is a problem in the reading.</summary>
public interface IArrivalReader
{
    /// <summary>Version of the reader, part of the basis: a change in what is read changes it.</summary>
    string Version { get; }

    /// <param name="arrival">A resource or a deletion; others give an empty reading.</param>
    /// <param name="entities">Interns the entities it names.</param>
    /// <param name="into">Cleared, then filled.</param>
    void Read(Arrival arrival, IEntityInterner entities, Reading into);
}
