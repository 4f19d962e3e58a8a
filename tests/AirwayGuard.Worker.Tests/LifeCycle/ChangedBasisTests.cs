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
    public async Task AStricterRuleSetFindsWhatStandsAlready_FoundAtItsStart_AndMarkedLate()
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

    private void Use(string name, bool live = true)
    {
        var rules = FewChecks.Of(ShippedRuleSets.Load(name).RuleSet!);
        var sha = live ? rules.Sha256 : rules.Sha256 + "-silent";
        var names = _bench.Basis.Names with { RuleSet = rules.Name, RuleSetVersion = rules.Version, RuleSetSha256 = rules.Sha256, BasisSha256 = sha };
        _bench.Basis = _bench.Basis with { Rules = rules, Live = live, Names = names };
    }
}
