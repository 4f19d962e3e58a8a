using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Rules;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Benchmarks.Intake;

/// <summary>A ledger with its judging step, and the arrivals of a ward read for it, group by group.</summary>
internal sealed class Ward : IAsyncDisposable
{
    private readonly ScratchFolder _folder;
    private readonly SqliteLedger _ledger;
    private readonly JudgeStep _judge;
    private readonly SetClock _clock;

    private Ward(SqliteLedger ledger, ScratchFolder folder, SetClock clock)
    {
        (_ledger, _folder, _clock) = (ledger, folder, clock);
        var rules = ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet!;
        var basis = new ServiceBasis(
            rules, Live: true, UnknownAge.CannotTell, TimeSpan.FromHours(2), new MessageBasis(rules.Name, rules.Version, rules.Sha256, rules.Sha256, "0", "0"));
        _judge = new JudgeStep(ledger, new ChartedText(), basis, clock, TimeSpan.FromMinutes(1));
    }

    public ILedger Ledger => _ledger;

    public long BytesOnDisk => new DirectoryInfo(_folder.Path).EnumerateFiles("*", SearchOption.AllDirectories).Sum(file => file.Length);

    public static async Task<Ward> OpenAsync()
    {
        var (folder, clock) = (new ScratchFolder(), new SetClock(Stay.Begins));
        var ledger = await SqliteLedger.OpenAsync(folder.Path, new SqliteLedgerOptions(), clock);
        // Nothing is judged before the server was looked at once.
        await ledger.KeepAsync([], new SweepCursor(JudgeStep.FirstSweep, Stay.Begins, null), CancellationToken.None);
        return new Ward(ledger, folder, clock);
    }

    /// <summary>Reads the admissions as one group, then each session of all patients as one.</summary>
    public List<List<ReadArrival>> Read(int patients, int sessions)
    {
        var reader = new StayReader(_ledger.Entities);
        var stays = Enumerable.Range(0, patients).Select(patient => new Stay(patient, IsQuiet: false)).ToList();
        return
        [
            reader.Read(stays.SelectMany(stay => stay.Admission())),
            .. Enumerable.Range(0, sessions).Select(session => reader.Read(stays.SelectMany(stay => stay.Session(session)))),
        ];
    }

    public async Task KeepAsync(IReadOnlyList<ReadArrival> group)
    {
        _clock.Now = group[^1].Arrival.KnownAt + TimeSpan.FromMinutes(30);
        await _ledger.KeepAsync(group, null, CancellationToken.None);
    }

    /// <summary>Marks whose times have run out by now.</summary>
    public ValueTask<int> RaiseDueAsync() => _ledger.RaiseDueAsync(_clock.Now, CancellationToken.None);

    /// <summary>Judges until nobody is waiting.</summary>
    /// <returns>How many patients were judged.</returns>
    public async Task<int> JudgeAsync()
    {
        var judged = 0;
        while (await _judge.StepAsync(CancellationToken.None) == StepResult.DidWork)
        {
            judged++;
        }

        return judged;
    }

    /// <exception cref="InvalidOperationException">No finding was committed: the measurement would be of something else.</exception>
    public async Task MustHaveFoundAsync(int patients)
    {
        for (var patient = 0; patient < patients; patient++)
        {
            var entity = _ledger.Entities.Intern(EntityKind.Patient, System.Text.Encoding.UTF8.GetBytes(new Stay(patient, false).Name));
            if ((await _ledger.FindingsAsync(entity, CancellationToken.None)).Count == 0)
            {
                throw new InvalidOperationException("No finding was committed about a patient.");
            }
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _ledger.DisposeAsync();
        _folder.Dispose();
    }
}
