using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.WriteBack;

namespace AirwayGuard.Worker.Intake;

/// <summary>Reads what a page brought, keeps it with the cursor, and tells what is to be told of it.</summary>
internal sealed class ArrivalKeeper(ILedger ledger, IArrivalReader reader, SweepVoice voice, ReadingTally tally, TimeProvider clock)
{
    /// <summary>Resources kept so far.</summary>
    public long Kept { get; private set; }

    /// <param name="moved">Null where the cursor stays.</param>
    public async ValueTask KeepAsync(IReadOnlyList<Arrival> arrivals, SweepCursor? moved, CancellationToken stop)
    {
        var read = new List<ReadArrival>(arrivals.Count);
        foreach (var arrival in arrivals)
        {
            await NoteMadeAsync(arrival, stop);
            read.Add(ArrivalReading.Of(arrival, reader, ledger.Entities));
        }

        if (read.Count == 0 && moved is null)
        {
            return;
        }

        var kept = await ledger.KeepAsync(read, moved, stop);
        var fresh = read.Where((_, i) => kept[i].IsNew).ToList();
        Kept += fresh.Count;
        tally.AddNotMapped(fresh.Sum(one => one.Reading.NotMapped.Count));
        voice.TellBatch(fresh.SelectMany(one => CodesOf(one).Select(code => (ReadingTally.TypeOf(one.Arrival.Type), code))));
    }

    // Before the cursor moves past it. The answer to its making may have been lost: a person may delete it before anything is written
    // to it, and then it must not be made anew.
    private async ValueTask NoteMadeAsync(Arrival arrival, CancellationToken stop)
    {
        if (arrival.Id is { Length: > 0 } id && OwnResource.Of(arrival.Type, arrival.Body) is { } ours
            && await ledger.LastSentAsync(ours.Key, stop) is null
            && await ledger.OutgoingAsync(ours.Key, stop) is { } message && (message.Patient.Kind != EntityKind.Patient || ours.MayBeAbout(ledger.NameOf(message.Patient))))
        {
            await ledger.NoteMadeAsync(ours.Key, id, stop);
        }
    }

    private IEnumerable<DiagnosticCode> CodesOf(ReadArrival read)
    {
        var codes = read.Reading.Problems.Select(problem => problem.Code).Distinct();
        return IsAhead(read) ? codes.Append(Codes.ChartedAhead) : codes;
    }

    private bool IsAhead(ReadArrival read)
    {
        var now = clock.GetUtcNow().UtcTicks;
        return read.Reading.Facts.Exists(fact => fact.EffectiveFrom > now && !fact.Has(FactMarks.Timeless));
    }
}
