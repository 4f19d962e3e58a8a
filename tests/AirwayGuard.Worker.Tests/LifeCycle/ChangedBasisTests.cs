using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>A rule set that is replaced judges again what is charted already, at the next start, and presents nothing old as new.</summary>
public sealed class ChangedBasisTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        Use("guideline-2022");
        await _bench.RestartAsync();
        await _bench.PutAsync(Ward.Patient);
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task AStricterRuleSetFindsWhatStandsAlready_FoundAtItsStart_AndKnownLate()
    {
        await _bench.PutAsync(Ward.Vacuum("o1", 180, 10));
        await _bench.RoundAsync();
        Assert.Empty(await _bench.FlagsAsync());
        Use("strict-ranges");
        await _bench.RestartAsync();

        await _bench.RoundAsync(TimeSpan.FromHours(5));

        var (flag, issue) = (Assert.Single(await _bench.FlagsAsync()), Assert.Single(await _bench.IssuesAsync()));
        Assert.Equal(("active", _bench.Clock.Now), (flag.Status(), (DateTimeOffset)flag["period"]!["start"]!));
        Assert.Equal(_bench.Clock.Now, (DateTimeOffset)issue["identifiedDateTime"]!);
        Assert.True((await _bench.FindingsAsync()).Single(record => record.Kind == FindingKind.Occurrence).Late);
        await _bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task AStricterRuleSetSaysOfWhatStandsTheLatestOnly_AndRecordsTheRest()
    {
        foreach (var minutes in new[] { 10, 20, 30 })
        {
            await _bench.PutAsync(Ward.Vacuum($"o{minutes}", 160 + minutes, minutes));
        }

        await _bench.RoundAsync(TimeSpan.FromHours(5));
        Use("strict-ranges");
        await _bench.RestartAsync();
        await _bench.RoundAsync();

        Assert.Equal("active", Assert.Single(await _bench.FlagsAsync()).Status());
        Assert.Contains("190", Assert.Single(await _bench.IssuesAsync()).ToJsonString(), StringComparison.Ordinal);
        Assert.Equal([Withholding.BeforePolicy, Withholding.BeforePolicy, Withholding.None], await WithheldAsync());
        await _bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task WhatWasOverBeforeAStricterRuleSet_IsRecordedAndNotSaid()
    {
        await _bench.PutAsync(Ward.Vacuum("o1", 180, 10));
        await _bench.PutAsync(Ward.Vacuum("o2", 100, 20));
        await _bench.PutAsync(Ward.Pass("o3", 13, 30));
        await _bench.RoundAsync(TimeSpan.FromHours(5));
        Use("strict-ranges", passLimit: 12);
        await _bench.RestartAsync();
        await _bench.RoundAsync();
        await _bench.RestartAsync();
        await _bench.RoundAsync();

        Assert.Empty(await _bench.FlagsAsync());
        Assert.Empty(await _bench.IssuesAsync());
        Assert.Empty(await _bench.IssuesAsync("pass-too-long"));
        Assert.Equal([Withholding.BeforePolicy, Withholding.BeforePolicy], await WithheldAsync());
    }

    [Fact]
    public async Task WhatWasJustCharted_IsSaid_ThoughTheOtherRuleSetHadJudgedIt()
    {
        await _bench.PutAsync(Ward.Pass("o1", 13, 30));
        await _bench.RoundAsync();
        Use("strict-ranges", passLimit: 12);
        await _bench.RestartAsync();

        await _bench.RoundAsync();

        Assert.Single(await _bench.IssuesAsync("pass-too-long"));
    }

    [Fact]
    public async Task WhatTheOtherRuleSetNeverSaw_IsSaid_HoweverLongAgoItHappened()
    {
        await _bench.PutAsync(Ward.Vacuum("o1", 100, 10));
        await _bench.RoundAsync(TimeSpan.FromHours(5));
        await _bench.PutAsync(Ward.Pass("o2", 13, 30));
        Use("strict-ranges", passLimit: 12);
        await _bench.RestartAsync();

        await _bench.RoundAsync();

        Assert.Single(await _bench.IssuesAsync("pass-too-long"));
    }

    [Fact]
    public async Task WhatIsCorrectedUnderTheNewRuleSet_IsSaidByIt()
    {
        await _bench.PutAsync(Ward.Pass("o1", 13, 30));
        await _bench.RoundAsync(TimeSpan.FromHours(5));
        Use("strict-ranges", passLimit: 12);
        await _bench.RestartAsync();
        await _bench.RoundAsync();
        Assert.Empty(await _bench.IssuesAsync("pass-too-long"));

        await _bench.PutAsync(Ward.Pass("o1", 14, 30, "corrected"));
        await _bench.RoundAsync();

        Assert.Equal("final", Assert.Single(await _bench.IssuesAsync("pass-too-long")).Status());
    }

    [Fact]
    public async Task ALooserRuleSetEndsWhatItDoesNotFind_AndTheSameAgainChangesNothing()
    {
        Use("strict-ranges");
        await _bench.RestartAsync();
        await _bench.PutAsync(Ward.Vacuum("o1", 180, 10));
        await _bench.RoundAsync();
        Use("guideline-2022");
        await _bench.RestartAsync();

        await _bench.RoundAsync();
        var arrivals = (await _bench.Ledger.StateAsync(Stop)).Arrivals;
        await _bench.RestartAsync();
        await _bench.UntilIdleAsync(() => _bench.Judge);

        Assert.Equal("inactive", Assert.Single(await _bench.FlagsAsync()).Status());
        Assert.Equal("final", Assert.Single(await _bench.IssuesAsync()).Status());
        Assert.Equal(arrivals, (await _bench.Ledger.StateAsync(Stop)).Arrivals);
        Assert.Single(await _bench.AuditAsync("basis"));
    }

    [Fact]
    public async Task WhatALooserRuleSetEnded_IsStillTakenBack_WhereItsChartingIs()
    {
        Use("strict-ranges");
        await _bench.RestartAsync();
        await _bench.PutAsync(Ward.Vacuum("o1", 180, 10));
        await _bench.RoundAsync();
        Use("guideline-2022");
        await _bench.RestartAsync();
        await _bench.RoundAsync();

        await _bench.PutAsync(Ward.Vacuum("o1", 180, 10, status: "entered-in-error"));
        await _bench.RoundAsync();

        Assert.Equal("entered-in-error", Assert.Single(await _bench.IssuesAsync()).Status());
        Assert.All(await _bench.FindingsAsync(), record => Assert.Equal(FindingState.Withdrawn, record.State));
    }

    [Fact]
    public async Task WhatALooserRuleSetEnded_ComesBackWithTheStricterOne()
    {
        Use("strict-ranges");
        await _bench.RestartAsync();
        await _bench.PutAsync(Ward.Vacuum("o1", 180, 10));
        await _bench.RoundAsync();
        foreach (var rules in new[] { "guideline-2022", "strict-ranges" })
        {
            Use(rules);
            await _bench.RestartAsync();
            await _bench.RoundAsync();
        }

        Assert.Equal("active", Assert.Single(await _bench.FlagsAsync()).Status());
        Assert.Equal("final", Assert.Single(await _bench.IssuesAsync()).Status());
        Assert.All(await _bench.FindingsAsync(), record => Assert.Equal(FindingState.Open, record.State));
        await _bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task WhatStoodBeforeKeepsItsTimes()
    {
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        var before = Assert.Single(await _bench.FlagsAsync());
        Use("strict-ranges");
        await _bench.RestartAsync();

        await _bench.RoundAsync(TimeSpan.FromHours(5));

        var flag = Assert.Single(await _bench.FlagsAsync());
        Assert.Equal((before.Key(), (string)before["period"]!["start"]!), (flag.Key(), (string)flag["period"]!["start"]!));
        Assert.False((await _bench.FindingsAsync()).Single(record => record.Kind == FindingKind.Occurrence).Late);
    }

    [Fact]
    public async Task WhatStandsWhenTheServiceIsPromoted_IsSaidThen_AndWhatIsOverIsNot()
    {
        Use("strict-ranges", live: false);
        await _bench.RestartAsync();
        await _bench.PutAsync(Ward.Vacuum("o1", 180, 10));
        await _bench.PutAsync(Ward.Vacuum("o2", 100, 20));
        await _bench.PutAsync(Ward.Vacuum("o3", 190, 30));
        await _bench.RoundAsync();
        Assert.Empty(await _bench.FlagsAsync());
        Use("strict-ranges");
        await _bench.RestartAsync();

        await _bench.RoundAsync();
        await _bench.RestartAsync();
        await _bench.RoundAsync();

        var (flag, issue) = (Assert.Single(await _bench.FlagsAsync()), Assert.Single(await _bench.IssuesAsync()));
        Assert.Equal(("active", "final"), (flag.Status(), issue.Status()));
        Assert.Contains("190", issue.ToJsonString(), StringComparison.Ordinal);
        await _bench.NothingIsDoubledAsync();
    }

    private async Task<List<Withholding>> WithheldAsync() =>
        [.. (await _bench.FindingsAsync())
            .Where(record => record is { Kind: FindingKind.Occurrence, Check: "vacuum-above-ceiling" or "pass-too-long" })
            .OrderBy(record => record.First)
            .Select(record => FindingContent.Read(record.Content.Span).Withheld)];

    private static RuleSet WithPassLimit(RuleSet rules, decimal seconds) => rules with
    {
        Sha256 = $"{rules.Sha256}-{seconds}",
        Rules = [.. rules.Rules.Select(rule => rule.Id == "pass-too-long" ? rule with { Criteria = [.. rule.Criteria.Select(one => one with { Limits = OfAdults(one.Limits, seconds) })] } : rule)],
    };

    private static BandLimits OfAdults(BandLimits limits, decimal seconds) => new(
        limits.For(AgeBand.Neonate), limits.For(AgeBand.Infant), limits.For(AgeBand.Child), limits.For(AgeBand.Adult)! with { Low = seconds, High = seconds });

    private void Use(string name, bool live = true, decimal? passLimit = null)
    {
        var rules = FewChecks.Of(ShippedRuleSets.Load(name).RuleSet!);
        rules = passLimit is { } seconds ? WithPassLimit(rules, seconds) : rules;
        var sha = live ? rules.Sha256 : rules.Sha256 + "-silent";
        var names = _bench.Basis.Names with { RuleSet = rules.Name, RuleSetVersion = rules.Version, RuleSetSha256 = rules.Sha256, BasisSha256 = sha };
        _bench.Basis = _bench.Basis with { Rules = rules, Live = live, Names = names };
    }
}
