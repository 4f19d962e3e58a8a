using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;

namespace AirwayGuard.Benchmarks.Judging;

/// <summary>Judging a stay of ten days, step by step, beside loading the same stay from the ledger.</summary>
internal sealed class JudgingBenchmark : IBenchmark
{
    private const int TypesNamed = 8;

    public string Name => "judging";

    public async Task RunAsync(RunOptions options, ResultTable table)
    {
        await RunAsync(new JudgedStay(isQuiet: true), isQuiet: true, options, table);
        await RunAsync(new JudgedStay(isQuiet: false), isQuiet: false, options, table);
    }

    private async Task RunAsync(JudgedStay stay, bool isQuiet, RunOptions options, ResultTable table)
    {
        using var folder = new ScratchFolder();
        await using var ledger = await SqliteLedger.OpenAsync(folder.Path, new SqliteLedgerOptions(), new SetClock(Stay.Begins));
        var patient = await KeepAsync(ledger, new Stay(1, isQuiet));
        var newest = (await ledger.StateAsync(CancellationToken.None)).Newest;
        var standings = await new Contest()
            .AddAsync("loading the stay from the ledger (baseline)", async () =>
            {
                using var lease = await ledger.LoadAsync(patient, TimeRange.All, newest, CancellationToken.None);
                return lease.FactCount;
            })
            .Add("assemble", () => RowsAfter(stay, stay.Assemble))
            .Add("judge", () => RowsAfter(stay, stay.Judge))
            .Add("derive", () => RowsAfter(stay, () => stay.Derive()))
            .Add("whole", () => RowsAfter(stay, () => stay.Whole()))
            .RunAsync(options.Rounds);
        var name = $"{Name}, {stay.Checks} checks, {stay.Rows} rows, {stay.Findings} findings";
        table.Add(name, "row", standings);
        table.Add(name, "session", [standings[^1].Per(Stay.RowsPerSession)]);
        table.Add(name, "stay", [standings[^1].Per(stay.Rows)]);
        table.Note($"{name}: types of the bytes of assemble: {Sample(() => stay.Assemble())}");
        table.Note($"{name}: types of the bytes of judge: {Sample(() => stay.Judge())}");
        table.Note($"{name}: types of the bytes of derive: {Sample(() => stay.Derive())}");
    }

    private static async Task<Entity> KeepAsync(SqliteLedger ledger, Stay stay)
    {
        var reader = new StayReader(ledger.Entities);
        await ledger.KeepAsync(reader.Read(stay.Admission()), null, CancellationToken.None);
        for (var session = 0; session < Stay.Sessions; session++)
        {
            await ledger.KeepAsync(reader.Read(stay.Session(session)), null, CancellationToken.None);
        }

        return ledger.Entities.Intern(EntityKind.Patient, System.Text.Encoding.UTF8.GetBytes(stay.Name));
    }

    private static long RowsAfter(JudgedStay stay, Action step)
    {
        step();
        return stay.Rows;
    }

    private static string Sample(Action step)
    {
        using var sampler = new AllocationSampler();
        for (var i = 0; i < 300; i++)
        {
            step();
        }

        return sampler.Most(TypesNamed);
    }
}
