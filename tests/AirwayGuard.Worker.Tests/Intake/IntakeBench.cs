using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Backlog;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>A ledger in a folder of its own, a clock that only the test turns, and the sweep over a source.</summary>
internal sealed class IntakeBench : IAsyncDisposable
{
    public static readonly DateTimeOffset Morning = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
    private static readonly CodeMap Map = CodeMap.Load(ShippedMaps.Standard).Map!;

    private readonly string _folder = Directory.CreateTempSubdirectory("intake-").FullName;
    private SqliteLedger? _ledger;

    public FakeTimeProvider Clock { get; } = new(Morning);

    public NoticeBoard Board { get; } = new();

    public IntakeHealth Health { get; private set; } = new();

    public IntakeOptions Options { get; } = new();

    public ILedger Ledger => _ledger!;

    public static async Task<IntakeBench> OpenAsync()
    {
        var bench = new IntakeBench();
        await bench.RestartAsync();
        return bench;
    }

    /// <summary>As after a stop of the process: the ledger is opened anew, nothing else is remembered.</summary>
    public async Task RestartAsync()
    {
        if (_ledger is not null)
        {
            await _ledger.DisposeAsync();
        }

        Health = new IntakeHealth();
        _ledger = await SqliteLedger.OpenAsync(_folder, Unflushed.Ledger, Clock);
    }

    public SweepStep Sweep(IArrivalSource source, ReadingProgress? progress = null, ServerContact? contact = null, ILogger<SweepStep>? logger = null) =>
        new(Ledger, source, new FhirArrivalReader(Map), Board, Health, Options, Clock, logger ?? NullLogger<SweepStep>.Instance, progress, contact);

    /// <summary>Steps until there is nothing to do now.</summary>
    public static async Task SettleAsync(IStep step)
    {
        for (var i = 0; await step.StepAsync(Stop) != StepResult.Idle; i++)
        {
            Assert.InRange(i, 0, 500);
        }
    }

    public void Turn(double seconds) => Clock.Advance(TimeSpan.FromSeconds(seconds));

    public async Task<DateTimeOffset?> CursorAsync(string query) => (await Ledger.CursorAsync("sweep:" + query, Stop))?.ServerTime;

    public async Task<DateTimeOffset?> FirstSweepAsync() => (await Ledger.CursorAsync(JudgeStep.FirstSweep, Stop))?.ServerTime;

    /// <summary>Vacuum readings of Patient/1 as known now, in mmHg.</summary>
    public async Task<IReadOnlyList<long>> ReadingsAsync()
    {
        var patient = Ledger.Entities.Intern(EntityKind.Patient, Encoding.UTF8.GetBytes("Patient/1"));
        using var lease = await Ledger.LoadAsync(patient, TimeRange.All, (await Ledger.StateAsync(Stop)).Newest, Stop);
        return [.. lease.View.Of(Concepts.VacuumPressure).ToArray().Select(fact => fact.Value.Digits)];
    }

    public async ValueTask DisposeAsync()
    {
        await Ledger.DisposeAsync();
        Board.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;
}
