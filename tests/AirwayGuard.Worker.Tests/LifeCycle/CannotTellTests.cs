using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>What a check cannot tell is recorded as it lives: once per line, counted, ended when it can be told, and never sent.</summary>
public sealed class CannotTellTests : IAsyncLifetime
{
    private const string Check = "vacuum-above-ceiling";

    private PipelineBench _bench = null!;

    public async ValueTask InitializeAsync() => _bench = await PipelineBench.StartAsync(Ward.Morning.AddHours(3));

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task AReadingOfAnUnknownAge_IsRecordedWithWhatIsMissing_AndNothingIsWrittenToTheServer()
    {
        await PutAsync(Ageless, Ward.Vacuum("o1", 110, 10));
        await _bench.RoundAsync();

        var record = Assert.Single(await OfAsync());

        Assert.Equal((FindingState.Open, 1, Ward.Morning.AddMinutes(10).UtcTicks), (record.State, record.Count, record.First));
        Assert.Equal([Missing.BirthDate], FindingContent.Read(record.Content.Span).Missing);
        Assert.Empty(await _bench.AllAsync("Flag"));
        Assert.Empty(await _bench.AllAsync("DetectedIssue"));
    }

    [Fact]
    public async Task WhatMayYetBeCharted_IsNotRecordedBeforeItsTime()
    {
        await PutAsync(Ageless, Ward.Vacuum("o1", 110, 150));
        await _bench.RoundAsync();
        Assert.Empty(await OfAsync());

        await _bench.RoundAsync();

        Assert.Single(await OfAsync());
    }

    [Fact]
    public async Task TheNextReadingIsCountedInTheSameRecord_AndTheTrailHasOnlyItsBeginning()
    {
        await PutAsync(Ageless, Ward.Vacuum("o1", 110, 10));
        await _bench.RoundAsync();
        await PutAsync(Ward.Vacuum("o2", 115, 20));
        await _bench.RoundAsync();

        var record = Assert.Single(await OfAsync());

        Assert.Equal((2, Ward.Morning.AddMinutes(10).UtcTicks, Ward.Morning.AddMinutes(20).UtcTicks), (record.Count, record.First, record.Latest));
        Assert.Equal(["finding-raise"], await TrailAsync(record.Key));
    }

    [Fact]
    public async Task OnceTheBirthDateIsCharted_ItIsTold_AndTheRecordEnds()
    {
        await PutAsync(Ageless, Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        await PutAsync(Ward.Patient);
        await _bench.RoundAsync();

        var record = Assert.Single(await OfAsync());

        Assert.Equal(FindingState.Cleared, record.State);
        Assert.Equal(["finding-raise", "finding-clear"], await TrailAsync(record.Key));
        Assert.Single(await _bench.AllAsync("Flag"));
    }

    [Fact]
    public async Task WhereItIsMissingAgain_TheSameRecordStandsAgain()
    {
        await PutAsync(Ageless, Ward.Vacuum("o1", 110, 10));
        await _bench.RoundAsync();
        await PutAsync(Ward.Patient);
        await _bench.RoundAsync();
        await PutAsync(Ageless);
        await _bench.RoundAsync();

        Assert.Equal(FindingState.Open, Assert.Single(await OfAsync()).State);
    }

    [Fact]
    public async Task JudgedAgainUnchanged_NothingIsWritten()
    {
        await PutAsync(Ageless, Ward.Vacuum("o1", 110, 10));
        await _bench.RoundAsync();
        var before = Assert.Single(await OfAsync());
        await PutAsync(Ward.Patient.Replace("\"birthDate\":\"1961-05-04\"", "\"gender\":\"other\"", StringComparison.Ordinal));
        await _bench.RoundAsync();

        Assert.Equal(before.JudgedAt, Assert.Single(await OfAsync()).JudgedAt);
    }

    [Fact]
    public async Task TheSilentRuleSays_ThatItIsSilent()
    {
        var rules = _bench.Basis.Rules;
        _bench.Basis = _bench.Basis with { Rules = rules with { Rules = [.. rules.Rules.Select(rule => rule.Id == Check ? rule with { Mode = Mode.Silent } : rule)] } };
        await _bench.RestartAsync();
        await PutAsync(Ageless, Ward.Vacuum("o1", 110, 10));
        await _bench.RoundAsync();

        Assert.Equal(Withholding.Silent, FindingContent.Read(Assert.Single(await OfAsync()).Content.Span).Withheld);
    }

    private static string Ageless => Ward.Patient.Replace(",\"birthDate\":\"1961-05-04\"", "", StringComparison.Ordinal);

    private async Task<List<FindingRecord>> OfAsync() =>
        [.. (await _bench.FindingsAsync()).Where(record => record is { Kind: FindingKind.CannotTell, Check: Check })];

    private async Task<List<string>> TrailAsync(Guid key) =>
        [.. (await Task.WhenAll(new[] { "finding-raise", "finding-amend", "finding-clear", "finding-follow" }.Select(_bench.AuditAsync))).SelectMany(one => one).Where(entry => entry.Subject == key.ToString()).OrderBy(entry => entry.Number).Select(entry => entry.What)];

    private async Task PutAsync(params string[] resources)
    {
        foreach (var resource in resources)
        {
            await _bench.PutAsync(resource);
        }
    }
}
