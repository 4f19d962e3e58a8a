using System.Text;
using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;

namespace AirwayGuard.Benchmarks.Loading;

/// <summary>Loading for a question asked at the end of a stay charted in full, for the first time and again, beside loading all of the stay: shorter and longer stays.</summary>
internal sealed class QuestionBenchmark : IBenchmark
{
    private static readonly int[] Days = [1, 10, 40];

    public string Name => "question";

    public async Task RunAsync(RunOptions options, ResultTable table)
    {
        using var folder = new ScratchFolder();
        await using var ledger = await SqliteLedger.OpenAsync(folder.Path, new SqliteLedgerOptions(), new SetClock(Stay.Begins));
        // Others may write to the same file, as far as it knows: it holds nothing of what it read.
        await using var anew = await SqliteLedger.OpenAsync(folder.Path, new SqliteLedgerOptions { Shared = true }, new SetClock(Stay.Begins));
        foreach (var days in Days)
        {
            var stay = new FullStay(days, Stay.Begins, days, Seed: 1, IsQuiet: true);
            await KeepAsync(ledger, stay);
            var (patient, scope) = (ledger.Entities.Intern(EntityKind.Patient, Encoding.UTF8.GetBytes(stay.Name)), ScopeAt(Stay.Begins.AddDays(days)));
            var newest = (await ledger.StateAsync(CancellationToken.None)).Newest;
            var standings = await new Contest()
                .AddAsync("all of the stay (baseline)", async () =>
                {
                    using var lease = await ledger.LoadAsync(patient, TimeRange.All, newest, CancellationToken.None);
                    return 1;
                })
                .AddAsync("for a question", async () =>
                {
                    using var lease = await anew.LoadAsync(patient, scope, newest, CancellationToken.None);
                    return 1;
                })
                .AddAsync("for a question asked again, nothing charted since", async () =>
                {
                    using var lease = await ledger.LoadAsync(patient, scope, newest, CancellationToken.None);
                    return 1;
                })
                .RunAsync(options.Rounds);
            table.Add($"{Name} at the end of a stay of {days} days", "load", standings);
        }
    }

    // What checks of a suction order go by: the airway and who it is, and what was set and seen in the last day.
    private static QuestionScope ScopeAt(DateTimeOffset end) => new(
        [
            Concepts.BirthDate, Concepts.GestationalAgeAtBirth, Concepts.BodyWeight, Concepts.EncounterClass, Concepts.EncounterPeriod, Concepts.DeviceKind, Concepts.MetricCategory,
            Concepts.AirwayType, Concepts.TubeInnerDiameter, Concepts.InnerCannulaDiameter, Concepts.InnerCannulaInPlace, Concepts.TubeLength, Concepts.AdapterLength,
            Concepts.LungInjury, Concepts.BleedingRisk, Concepts.HyperoxygenationContraindicated, Concepts.IntracranialPressureMonitored,
        ],
        [Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.RegulatorMode, Concepts.CatheterSize, Concepts.Fio2, Concepts.Peep, Concepts.SecretionConsistency, Concepts.AllowanceReason],
        new TimeRange(end.AddDays(-1).UtcTicks, end.UtcTicks));

    private static async Task KeepAsync(SqliteLedger ledger, FullStay stay)
    {
        var reader = new StayReader(ledger.Entities);
        await ledger.KeepAsync(reader.Read(stay.Admission()), null, CancellationToken.None);
        for (var day = 0; day < stay.Days; day++)
        {
            await ledger.KeepAsync(reader.Read(stay.Day(day)), null, CancellationToken.None);
        }
    }
}
