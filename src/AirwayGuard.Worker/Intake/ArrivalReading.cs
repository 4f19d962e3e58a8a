using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// Reads one arrival. A reader throws on no input; one that has a fault all the same must not hold up the rest of its page for
/// ever, so what it failed on counts as not to be read: it is kept, parked, and can be read again by a later release.
/// </summary>
public static class ArrivalReading
{
    public static ReadArrival Of(Arrival arrival, IArrivalReader reader, IEntityInterner entities)
    {
        var reading = new Reading();
        try
        {
            reader.Read(arrival, entities, reading);
        }
        catch (Exception trouble) when (trouble is not OperationCanceledException)
        {
            var self = reading.Self;
            reading.Clear();
            (reading.Self, reading.Readable) = (self, false);
            reading.Problems.Add(new Problem(Codes.ArrivalUnreadable, arrival.Type ?? "", $"Reading it failed with {trouble.GetType().Name}."));
        }

        return new ReadArrival(arrival, reading);
    }
}
