using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Rules;
using AirwayGuard.Storage;

namespace AirwayGuard.Benchmarks.Judging;

/// <summary>Judging a stay of ten days, step by step, with the first eight checks and with all, beside loading the same stay from the ledger.</summary>
internal sealed class JudgingBenchmark : IBenchmark
{
    private const int TypesNamed = 8;

    // What the figures of the first version of docs/performance.md were taken with.
    private static readonly string[] FirstEight =
    [
        "vacuum-above-ceiling", "regulator-on-full-line", "vacuum-unit-doubtful", "catheter-too-wide", "pass-too-long", "preoxygenation-missing",
        "blood-stained-secretions-trend", "suction-ordered-by-clock",
    ];

    public string Name => "judging";

    public async Task RunAsync(RunOptions options, ResultTable table)
    {
        foreach (var stay in (ChartedStay[])[ChartedStay.OfPasses(isQuiet: true), ChartedStay.OfPasses(isQuiet: false), ChartedStay.InFull(isQuiet: true), ChartedStay.InFull(isQuiet: false)])
        {
            await RunAsync(stay, options, table);
        }
    }

    private async Task RunAsync(ChartedStay charted, RunOptions options, ResultTable table)
    {
        var all = ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet!;
        var (stay, eight) = (new JudgedStay(charted, all), new JudgedStay(charted, all with { Rules = [.. all.Rules.Where(rule => FirstEight.Contains(rule.Id))] }));
        using var folder = new ScratchFolder();
        await using var ledger = await SqliteLedger.OpenAsync(folder.Path, new SqliteLedgerOptions(), new SetClock(Stay.Begins));
        var patient = await KeepAsync(ledger, charted);
        var newest = (await ledger.StateAsync(CancellationToken.None)).Newest;
        var standings = await new Contest()
            .AddAsync("loading the stay from the ledger (baseline)", async () =>
            {
                using var lease = await ledger.LoadAsync(patient, TimeRange.All, newest, CancellationToken.None);
                return lease.FactCount;
            })
            .Add("assemble", () => RowsAfter(stay, stay.Assemble))
            .Add($"judge, {eight.Checks} checks", () => RowsAfter(eight, eight.Judge))
            .Add($"judge, {stay.Checks} checks", () => RowsAfter(stay, stay.Judge))
            .Add($"derive, {stay.Checks} checks", () => RowsAfter(stay, () => stay.Derive()))
            .Add($"whole, {eight.Checks} checks, {eight.Findings} findings", () => RowsAfter(eight, () => eight.Whole()))
            .Add($"whole, {stay.Checks} checks, {stay.Findings} findings", () => RowsAfter(stay, () => stay.Whole()))
            .RunAsync(options.Rounds);
        var name = $"{Name}, {charted.Charting}, {stay.Rows} rows, {stay.Sessions} sessions";
        table.Add(name, "row", standings);
        table.Add(name, "session", standings.TakeLast(2).Select(standing => standing.Per(stay.Rows, stay.Sessions)));
        table.Add(name, "stay", standings.TakeLast(2).Select(standing => standing.Per(stay.Rows, 1)));
        table.Note($"{name}, {stay.Findings} findings, {stay.CannotTell} not to be told: types of the bytes of assemble: {Sample(() => stay.Assemble())}; of judge: {Sample(() => stay.Judge())}; of derive: {Sample(() => stay.Derive())}");
    }

    private static async Task<Entity> KeepAsync(SqliteLedger ledger, ChartedStay stay)
    {
        var reader = new StayReader(ledger.Entities);
        foreach (var group in stay.Groups)
        {
            await ledger.KeepAsync(reader.Read(group), null, CancellationToken.None);
        }

        return ledger.Entities.Intern(EntityKind.Patient, System.Text.Encoding.UTF8.GetBytes(stay.Patient));
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
