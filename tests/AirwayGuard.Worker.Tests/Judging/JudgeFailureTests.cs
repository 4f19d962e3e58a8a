using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Judging;
using Xunit;

namespace AirwayGuard.Worker.Tests.Judging;

/// <summary>A patient whose file cannot be judged is tried a few times, then set aside; others go on being judged.</summary>
public sealed class JudgeFailureTests : IAsyncLifetime
{
    private const string Other = """{"resourceType":"Patient","id":"q","birthDate":"1961-05-04"}""";

    private readonly FaultyText _text = new();
    private PipelineBench _bench = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        await _bench.PutAsync(Ward.Patient);
        await _bench.PutAsync(Other);
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.PutAsync(Ward.Vacuum("o2", 230, 10).Replace("Patient/p", "Patient/q", StringComparison.Ordinal));
        _bench.Clock.Now += TimeSpan.FromHours(1);
        await _bench.SweepAsync();
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task AfterSoManyTriesWithGrowingWaits_ItIsParkedWithItsCode_AndTheOtherPatientIsJudged()
    {
        var began = _bench.Clock.Now;
        foreach (var seconds in new[] { 10, 40, 160, 640 })
        {
            await UntilIdleAsync();
            Assert.Empty(await _bench.Ledger.ParkedAsync(Stop));
            var tries = _text.Faults;
            _bench.Clock.Now += TimeSpan.FromSeconds(seconds) - TimeSpan.FromTicks(1);
            await UntilIdleAsync();
            Assert.Equal(tries, _text.Faults);
            _bench.Clock.Now += TimeSpan.FromTicks(1);
        }

        await UntilIdleAsync();
        _bench.Clock.Now += TimeSpan.FromDays(1);
        await UntilIdleAsync();

        Assert.Equal(JudgeStep.MostTries, _text.Faults);
        var entry = Assert.Single(await _bench.Ledger.ParkedEntriesAsync(Stop));
        Assert.Equal(("AG4014", "Patient/p", began, began.AddSeconds(850)), (entry.Item.Code, entry.Item.Where, entry.First, entry.Item.At));
        Assert.NotEmpty(await _bench.FindingsAsync("Patient/q"));
        Assert.Empty(await _bench.FindingsAsync());
    }

    [Fact]
    public async Task WhatIsChartedNextIsTriedOnce_AndASuccessTakesItOffTheList()
    {
        await UntilParkedAsync();
        await _bench.PutAsync(Ward.Vacuum("o3", 240, 20));
        await SweepLaterAsync();
        await UntilIdleAsync();
        Assert.Equal(JudgeStep.MostTries + 1, _text.Faults);

        _text.IsMended = true;
        await _bench.PutAsync(Ward.Vacuum("o4", 250, 30));
        await SweepLaterAsync();
        await UntilIdleAsync();

        Assert.Empty(await _bench.Ledger.ParkedAsync(Stop));
        Assert.NotEmpty(await _bench.FindingsAsync());
    }

    // A restart, or a machine without memory, ends the process in the midst of a file that is not to blame.
    [Fact]
    public async Task WhatTheProcessOftenEndedIn_IsJudgedAllTheSame()
    {
        _text.IsMended = true;
        for (var start = 0; start < JudgeStep.MostTries * 4; start++)
        {
            await _bench.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.Now, Stop);
            _bench.Clock.Now += TimeSpan.FromSeconds(start % 2 == 0 ? 0 : 60);
        }

        await UntilIdleAsync();

        Assert.Empty(await _bench.Ledger.ParkedAsync(Stop));
        Assert.NotEmpty(await _bench.FindingsAsync());
        Assert.NotEmpty(await _bench.FindingsAsync("Patient/q"));
    }

    [Fact]
    public async Task WhatEndsTheProcessEachTime_IsParkedWithoutAnotherTry()
    {
        for (var start = 0; start < Claims.MostWithoutWord * 2; start++)
        {
            await _bench.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.Now, Stop);
            _bench.Clock.Now += TimeSpan.FromSeconds(start % 2 == 0 ? 0 : 60);
        }

        await UntilIdleAsync();

        Assert.Equal((0, 2), (_text.Faults, (await _bench.Ledger.ParkedAsync(Stop)).Count));
    }

    private async Task UntilParkedAsync()
    {
        while ((await _bench.Ledger.ParkedAsync(Stop)).Count == 0)
        {
            Assert.True(_text.Faults <= JudgeStep.MostTries);
            await UntilIdleAsync();
            _bench.Clock.Now += TimeSpan.FromHours(1);
        }
    }

    private async Task SweepLaterAsync()
    {
        _bench.Clock.Now += TimeSpan.FromHours(1);
        await _bench.SweepAsync();
    }

    private Task UntilIdleAsync()
    {
        var judge = new JudgeStep(_bench.Ledger, _text, _bench.Basis, _bench.Clock, TimeSpan.FromMinutes(1));
        return _bench.UntilIdleAsync(() => judge);
    }

    /// <summary>Fails on the words of the first patient's rows.</summary>
    private sealed class FaultyText : IChartedText
    {
        private readonly ChartedText _inner = new();

        public int Faults { get; private set; }

        public bool IsMended { get; set; }

        public string? ValueOf(ReadOnlySpan<byte> body, int ordinal)
        {
            if (IsMended || body.IndexOf("Patient/p"u8) < 0)
            {
                return _inner.ValueOf(body, ordinal);
            }

            Faults++;
            throw new InvalidOperationException("A fault of the judging.");
        }
    }
}
