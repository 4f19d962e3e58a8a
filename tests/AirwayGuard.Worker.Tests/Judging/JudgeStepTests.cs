using AirwayGuard.Core.Ports;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using Xunit;

namespace AirwayGuard.Worker.Tests.Judging;

public sealed class JudgeStepTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => _bench = await PipelineBench.StartAsync(Ward.Morning.AddHours(1));

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task NothingIsJudgedBeforeEverythingWasAskedForOnce()
    {
        await ChartAsync();
        Assert.Equal(StepResult.Idle, await _bench.Judge.StepAsync(Stop));
        Assert.Equal(1, (await _bench.Ledger.StateAsync(Stop)).PatientsWaiting);

        await FirstSweepAsync();

        Assert.Equal(StepResult.DidWork, await _bench.Judge.StepAsync(Stop));
        Assert.Equal(StepResult.Idle, await _bench.Judge.StepAsync(Stop));
        Assert.NotEmpty(await _bench.FindingsAsync());
    }

    [Fact]
    public async Task NothingIsJudgedBeforeAQuestionThatIsNewWasAskedToItsEnd_ThoughTheFirstSweepWasLongAgo()
    {
        await ChartAsync();
        await FirstSweepAsync();
        var judge = new JudgeStep(_bench.Ledger, new Fhir.Reading.ChartedText(), _bench.Basis, _bench.Clock, TimeSpan.FromMinutes(1), null, ["Patient", "Observation-new"]);
        await _bench.Ledger.KeepAsync([], new SweepCursor(SweepNames.CursorName("Patient"), Ward.Morning, null), Stop);
        Assert.Equal(StepResult.Idle, await judge.StepAsync(Stop));

        await _bench.Ledger.KeepAsync([], new SweepCursor(SweepNames.CursorName("Observation-new"), Ward.Morning, null), Stop);

        Assert.Equal(StepResult.DidWork, await judge.StepAsync(Stop));
    }

    [Fact]
    public async Task ADecisionWhoseClaimAnotherTookOverIsRefusedWhole()
    {
        await ChartAsync();
        await FirstSweepAsync();
        using var text = new GatedText();
        var slow = new JudgeStep(_bench.Ledger, text, _bench.Basis, _bench.Clock, TimeSpan.FromMinutes(1));
        var judging = Task.Run(() => slow.StepAsync(Stop).AsTask(), Stop);
        Assert.True(await text.EnteredAsync(Stop));

        _bench.Clock.Now += TimeSpan.FromMinutes(2);
        var other = await _bench.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.Now, Stop);
        text.Open();

        Assert.Equal(StepResult.DidWork, await judging);
        Assert.NotNull(other);
        Assert.Empty(await _bench.FindingsAsync());
        Assert.Equal(0, (await _bench.Ledger.StateAsync(Stop)).Pending);
        Assert.Empty(await _bench.AuditAsync("finding-raise"));
    }

    [Fact]
    public async Task AClaimThatRanOutIsJudgedAgainByWhoeverComesNext()
    {
        await ChartAsync();
        await FirstSweepAsync();
        await _bench.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.Now, Stop);
        Assert.Equal(StepResult.Idle, await _bench.Judge.StepAsync(Stop));

        _bench.Clock.Now += TimeSpan.FromMinutes(1);

        Assert.Equal(StepResult.DidWork, await _bench.Judge.StepAsync(Stop));
        Assert.NotEmpty(await _bench.FindingsAsync());
    }

    [Fact]
    public async Task ASilentServiceRecordsAndSendsNothing()
    {
        await ChartAsync();
        await FirstSweepAsync();
        var silent = new JudgeStep(_bench.Ledger, new Fhir.Reading.ChartedText(), _bench.Basis with { Live = false }, _bench.Clock, TimeSpan.FromMinutes(1));

        Assert.Equal(StepResult.DidWork, await silent.StepAsync(Stop));

        Assert.NotEmpty(await _bench.FindingsAsync());
        Assert.Equal(0, (await _bench.Ledger.StateAsync(Stop)).Pending);
    }

    [Fact]
    public async Task JudgingTheSameAgainChangesNothing()
    {
        await ChartAsync();
        await FirstSweepAsync();
        await _bench.UntilIdleAsync(() => _bench.Judge);
        var before = (await _bench.FindingsAsync()).Select(record => (record.Key, record.State, record.JudgedAt)).ToList();

        await _bench.Ledger.KeepAsync([Charted.Vacuum(_bench.Ledger, "low", "1", "Patient/p", 40, 1, 1)], null, Stop);
        await _bench.UntilIdleAsync(() => _bench.Judge);

        Assert.Equal(before, (await _bench.FindingsAsync()).Select(record => (record.Key, record.State, record.JudgedAt)));
    }

    private async Task ChartAsync()
    {
        foreach (var (name, json) in new[] { ("Patient/p", Ward.Patient), ("Observation/o1", Ward.Vacuum("o1", 220, 10)) })
        {
            var parts = name.Split('/');
            var arrival = Charted.Resource(parts[0], parts[1], "1", 0, json);
            var reading = new Reading();
            new Fhir.Reading.FhirArrivalReader(Fhir.Terminology.ShippedMaps.StandardCodes).Read(arrival, _bench.Ledger.Entities, reading);
            await _bench.Ledger.KeepAsync([new ReadArrival(arrival, reading)], null, Stop);
        }
    }

    private async Task FirstSweepAsync() => await _bench.Ledger.KeepAsync([], new SweepCursor(JudgeStep.FirstSweep, Ward.Morning, null), Stop);
}
