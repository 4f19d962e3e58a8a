using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Intake;

namespace AirwayGuard.Worker.Parking;

/// <summary>
/// Puts back what was set aside. A message waits to be sent again; a resource that could not be read is read again and, if it can
/// be now, kept at a position of its own: what was judged before stays as it was.
/// </summary>
public sealed class ParkedRetry(ILedger ledger, IArrivalReader reader, TimeProvider clock)
{
    /// <returns>What was done, or why nothing was.</returns>
    public async ValueTask<(string Said, Problem? Problem)> RunAsync(long number, CancellationToken stop)
    {
        if ((await ledger.ParkedEntriesAsync(stop)).FirstOrDefault(one => one.Number == number) is not { } entry)
        {
            return ("", new Problem(Codes.ParkedUnknown, "ID", "Nothing of this number is set aside."));
        }

        ReadArrival? again = null;
        if (entry.Item.Arrival is { } position)
        {
            if (await ledger.ArrivalAsync(position, stop) is not { } arrival)
            {
                return ("", new Problem(Codes.ParkedBodyGone, "ID", "Its body was purged."));
            }

            var reading = ArrivalReading.Of(arrival, reader, ledger.Entities).Reading;
            if (!reading.Readable)
            {
                await ledger.ParkAsync(entry.Item with { At = clock.GetUtcNow() }, stop);
                return ("", new Problem(Codes.ParkedStill, "ID", $"It could not be read now either ({(reading.Problems is [var first, ..] ? first.Code.Id : entry.Item.Code)})."));
            }

            // It keeps the time at which it became known, so that a version that came after it still stands.
            again = new ReadArrival(arrival with { Kind = ArrivalKind.NewBasis }, reading);
        }

        await ledger.RetryParkedAsync(number, again, stop);
        var done = entry.Item switch
        {
            { Patient.IsNone: false } => "its patient is judged once the service runs",
            { Outgoing: not null } => "it will be sent again once the service runs",
            { Arrival: not null } => "it was read, and its patient is judged once the service runs",
            _ => "it is asked for again with the next sweep",
        };
        return (string.Create(CultureInfo.InvariantCulture, $"{number} put back: {done}."), null);
    }
}
