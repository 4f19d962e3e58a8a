using System.Text;
using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;

namespace AirwayGuard.Benchmarks.Loading;

/// <summary>Loading patient by patient from the ledger, beside a bare loop over an equal table.</summary>
internal sealed class LoadingBenchmark : IBenchmark
{
    // Forty hours of charting each, so that the file holds many patients.
    private const int DefaultRows = 100_000, Sessions = 20;

    public string Name => "loading";

    public async Task RunAsync(RunOptions options, ResultTable table)
    {
        using var folder = new ScratchFolder();
        await using var ledger = await SqliteLedger.OpenAsync(folder.Path, new SqliteLedgerOptions(), new SetClock(Stay.Begins));
        var patients = await KeepAsync(ledger, Math.Max(1, (options.Rows ?? DefaultRows) / (Sessions * Stay.RowsPerSession)));
        var newest = (await ledger.StateAsync(CancellationToken.None)).Newest;
        using var plain = new PlainTable(folder.Path);
        var standings = await new Contest()
            .Add("bare loop over an equal table (baseline)", () => patients.Sum(patient => plain.Read(patient.Packed)))
            .Add("the same loop through ADO.NET", () => patients.Sum(patient => plain.ReadWithCommand(patient.Packed)))
            .AddAsync("SqliteLedger.LoadAsync, sorted for judging", async () =>
            {
                var facts = 0L;
                foreach (var patient in patients)
                {
                    using var lease = await ledger.LoadAsync(patient, TimeRange.All, newest, CancellationToken.None);
                    facts += lease.FactCount;
                }

                return facts;
            })
            .RunAsync(options.Rounds);
        table.Add($"{Name}, {newest.Value:N0} rows of {patients.Count} patients", "row", standings);
    }

    // Session by session over all patients, as a ward charts.
    private static async Task<List<Entity>> KeepAsync(SqliteLedger ledger, int count)
    {
        var reader = new StayReader(ledger.Entities);
        var stays = Enumerable.Range(0, count).Select(patient => new Stay(patient, IsQuiet: true)).ToList();
        foreach (var some in stays.Chunk(100))
        {
            await ledger.KeepAsync(reader.Read(some.SelectMany(stay => stay.Admission())), null, CancellationToken.None);
        }

        for (var session = 0; session < Sessions; session++)
        {
            var at = session;
            foreach (var some in stays.Chunk(20))
            {
                await ledger.KeepAsync(reader.Read(some.SelectMany(stay => stay.Session(at))), null, CancellationToken.None);
            }
        }

        return [.. stays.Select(stay => ledger.Entities.Intern(EntityKind.Patient, Encoding.UTF8.GetBytes(stay.Name)))];
    }
}
