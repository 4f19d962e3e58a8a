using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Sending;
using AirwayGuard.Worker.Tests.Sending;
using Microsoft.Data.Sqlite;
using Xunit;

namespace AirwayGuard.Worker.Tests.Claiming;

/// <summary>A disk that takes a claim and has no room for what came of it: that is no try of the patient's file, nor of the message.</summary>
public sealed class FullDiskTests : IAsyncLifetime
{
    private const int Full = 13, Rounds = Claims.MostWithoutWord * 2;

    private PipelineBench _bench = null!;
    private SqliteLedger _ledger = null!;
    private bool _isFull;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        await _bench.PutAsync(Ward.Patient);
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        _bench.Clock.Now += TimeSpan.FromHours(1);
        await _bench.SweepAsync();
        _ledger = await SqliteLedger.OpenAsync(Path.Combine(_bench.DataFolder, "ledger"), new SqliteLedgerOptions { Shared = true, FillSalt = FillSalt }, _bench.Clock);
        await _ledger.AdoptBasisAsync(_bench.Basis.Names.BasisSha256, _bench.Basis.Document, _bench.Clock.Now, Stop);
    }

    public async ValueTask DisposeAsync()
    {
        await _ledger.DisposeAsync();
        await _bench.DisposeAsync();
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task HoweverLongTheDiskIsFull_APatientsFileIsJudgedOnceThereIsRoom(bool startsAnew)
    {
        var judge = JudgeOf();
        await FailThroughAsync(() => startsAnew ? JudgeOf() : judge);

        await _bench.UntilIdleAsync(() => judge);

        Assert.Empty(await _ledger.ParkedAsync(Stop));
        Assert.NotEmpty(await _bench.FindingsAsync());
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task HoweverLongTheDiskIsFull_AMessageHasAllItsTriesOnceThereIsRoom(bool startsAnew)
    {
        await _bench.UntilIdleAsync(JudgeOf);
        var sink = new ScriptedSink([.. Enumerable.Repeat(ScriptedSink.Confirmed("1"), Rounds), ScriptedSink.Open("AG5108")]) { TakesAll = true };
        var send = SendOf(sink);
        await FailThroughAsync(() => startsAnew ? SendOf(sink) : send);

        Assert.Equal(StepResult.BackOff, await send.StepAsync(Stop));

        Assert.Equal(Rounds + 1, sink.Given.Count);
        Assert.Empty(await _ledger.ParkedAsync(Stop));
    }

    // What cannot even be given back is given back before anything else is claimed.
    [Fact]
    public async Task WhileNotEvenAClaimCanBeGivenBack_NoOtherIsMade()
    {
        var isFull = true;
        var returned = new ClaimReturn((work, stop) => isFull ? throw new SqliteException("The disk is full.", Full) : _ledger.ReleaseAsync(work, stop));
        var work = (await _ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.Now, Stop))!;

        await returned.TakeAsync(work, Stop);
        await Assert.ThrowsAsync<SqliteException>(async () => await returned.GiveAsync(Stop));
        Assert.Null(await _ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.Now, Stop));
        isFull = false;
        await returned.GiveAsync(Stop);

        Assert.Equal(1, (await _ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.Now, Stop))!.Attempts);
    }

    private async Task FailThroughAsync(Func<IStep> step)
    {
        _isFull = true;
        for (var round = 0; round < Rounds; round++)
        {
            var trouble = await Assert.ThrowsAnyAsync<Exception>(async () => await step().StepAsync(Stop));
            Assert.True(DiskFull.IsMeantBy(trouble));
            _bench.Clock.Now += TimeSpan.FromMinutes(1);
        }

        _isFull = false;
    }

    private JudgeStep JudgeOf() => new(_ledger, new ChartedText(), _bench.Basis, _bench.Clock, TimeSpan.FromMinutes(1));

    private SendStep SendOf(ScriptedSink sink) => new(_ledger, [sink], new SendOptions(), _bench.Clock);

    private void FillSalt(byte[] salt)
    {
        if (_isFull)
        {
            throw new SqliteException("The disk is full.", Full);
        }
    }
}
