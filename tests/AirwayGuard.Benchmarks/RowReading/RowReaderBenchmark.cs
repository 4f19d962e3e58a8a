using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Storage;
using Hl7.Fhir.Serialization;

namespace AirwayGuard.Benchmarks.RowReading;

/// <summary>Observations from bytes to facts, beside the least that could be taken from the same bytes and the SDK's parse of them.</summary>
internal sealed class RowReaderBenchmark : IBenchmark
{
    private const int DefaultRows = 20_000, RowsOfTheSdk = 500;

    public string Name => "rows";

    public async Task RunAsync(RunOptions options, ResultTable table)
    {
        var rows = Rows(options.Rows ?? DefaultRows);
        using var folder = new ScratchFolder();
        await using var ledger = await SqliteLedger.OpenAsync(folder.Path, new SqliteLedgerOptions(), new SetClock(Stay.Begins));
        // The names are known, as for versions of rows seen before; and saved, so that none waits for its commit.
        await ledger.KeepAsync(new StayReader(ledger.Entities).Read(rows), null, CancellationToken.None);
        var reader = new FhirArrivalReader(ShippedMaps.WithDemoRows);
        var reading = new Reading();
        var standings = await new Contest()
            .Add("nine fields picked with Utf8JsonReader (baseline)", () => Pick(rows))
            .Add("FhirArrivalReader, names known to the ledger", () => Read(reader, rows, ledger.Entities, reading))
            .Add("FhirArrivalReader, names known to an EntityTable", WithTable(reader, rows, reading))
            .AddRound("FhirArrivalReader, row names new to the ledger", () => ReadNewAsync(reader, rows, reading))
            .Add("FhirJsonDeserializer.RECOVERABLE", () => Parse(rows.AsSpan(0, Math.Min(rows.Length, RowsOfTheSdk))))
            .RunAsync(options.Rounds);
        table.Add($"{Name}, {rows.Average(row => row.Body.Length):N0} B each", "row", standings);
    }

    private static Arrival[] Rows(int count) =>
        [.. Enumerable.Range(0, (count / (Stay.Sessions * Stay.RowsPerSession)) + 1).SelectMany(patient => Enumerable.Range(0, Stay.Sessions).SelectMany(new Stay(patient, IsQuiet: true).Session)).Take(count)];

    private static long Pick(Arrival[] rows)
    {
        var seen = 0L;
        foreach (var row in rows)
        {
            seen += NineFields.Read(row.Body.Span).Code is null ? 0 : 1;
        }

        return seen;
    }

    private static long Read(FhirArrivalReader reader, Arrival[] rows, IEntityInterner entities, Reading reading)
    {
        var facts = 0L;
        foreach (var row in rows)
        {
            reader.Read(row, entities, reading);
            facts += reading.Facts.Count;
        }

        return facts;
    }

    private static Func<long> WithTable(FhirArrivalReader reader, Arrival[] rows, Reading reading)
    {
        var entities = new EntityTable();
        return () => Read(reader, rows, entities, reading);
    }

    private static async Task<Cost> ReadNewAsync(FhirArrivalReader reader, Arrival[] rows, Reading reading)
    {
        using var folder = new ScratchFolder();
        await using var ledger = await SqliteLedger.OpenAsync(folder.Path, new SqliteLedgerOptions(), new SetClock(Stay.Begins));
        return Cost.Of(() => Read(reader, rows, ledger.Entities, reading));
    }

    private static long Parse(ReadOnlySpan<Arrival> rows)
    {
        var read = 0L;
        foreach (var row in rows)
        {
            var bytes = new System.Text.Json.Utf8JsonReader(row.Body.Span);
            read += FhirJsonDeserializer.RECOVERABLE.TryDeserializeResource(ref bytes, out _, out _) ? 1 : 0;
        }

        return read;
    }
}
