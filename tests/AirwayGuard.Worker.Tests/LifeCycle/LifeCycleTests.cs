using AirwayGuard.Core.Findings;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>
/// What becomes of a finding, from row to server and back, with a restart between each two pieces of work and
/// without. A restart doubles nothing.
/// </summary>
public sealed class LifeCycleTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    public async ValueTask InitializeAsync() => _bench = await PipelineBench.StartAsync(Ward.Morning);

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task ABreachIsRaised_AndACompliantOccludedReadingEndsTheFlagOnly(bool restarts)
    {
        await RoundAsync(restarts, Ward.Patient, Ward.Vacuum("o1", 220, 10));
        var raised = Assert.Single(await _bench.FlagsAsync());
        Assert.Equal(("active", null), (raised.Status(), (string?)raised["period"]!["end"]));

        await RoundAsync(restarts, Ward.Vacuum("o2", 120, 70));

        var (flag, issue) = (Assert.Single(await _bench.FlagsAsync()), Assert.Single(await _bench.IssuesAsync()));
        Assert.Equal((raised.Key(), "inactive", "2"), (flag.Key(), flag.Status(), flag.Version()));
        Assert.NotNull((string?)flag["period"]!["end"]);
        Assert.Equal(("final", "1"), (issue.Status(), issue.Version()));
        Assert.Equal(["CREATE 1: Observation/o1/_history/1"], await _bench.ProvenancesAsync(issue), StringComparer.Ordinal);
        Assert.Equal(["CREATE 1: Observation/o1/_history/1", "UPDATE 2: Observation/o1/_history/1 Observation/o2/_history/1"], await _bench.ProvenancesAsync(flag), StringComparer.Ordinal);
        Assert.Equal([FindingState.Cleared], await StatesAsync(FindingKind.Spell));
        Assert.Equal([FindingState.Cleared], await StatesAsync(FindingKind.Occurrence));
        Assert.Contains("\"state\":\"Cleared\"", Assert.Single(await _bench.AuditAsync("finding-follow")).Detail, StringComparison.Ordinal);
        await _bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task ARowWhoseCodeStandsInAComponentAloneIsFoundByTheSweep_AndRaisesAFlag()
    {
        await RoundAsync(false, Ward.Patient, Ward.VacuumInComponent("o1", 220, 10));

        var flag = Assert.Single(await _bench.FlagsAsync());
        Assert.Equal("active", flag.Status());
        Assert.Equal(["CREATE 1: Observation/o1/_history/1"], await _bench.ProvenancesAsync(flag), StringComparer.Ordinal);
    }

    [Fact]
    public async Task AFlagEndsWithItsEpisodeThoughNothingMoreIsCharted()
    {
        await RoundAsync(false, [Ward.Patient, .. Ward.Tube, Ward.Vacuum("o1", 220, 10)]);
        await RoundAsync(false, Ward.TubeOut(100));
        var soonAfter = Assert.Single(await _bench.FlagsAsync()).Status();
        await _bench.RoundAsync(TimeSpan.FromHours(2));

        Assert.Equal("active", soonAfter);
        Assert.Equal("inactive", Assert.Single(await _bench.FlagsAsync()).Status());
    }

    [Theory]
    [InlineData("flowing")]
    [InlineData("unknown")]
    public async Task AReadingThatWasNotOccludedEndsNothing(string method)
    {
        await RoundAsync(false, Ward.Patient, Ward.Vacuum("o1", 220, 10));

        await RoundAsync(false, Ward.Vacuum("o2", 120, 70, method));

        Assert.Equal(("active", "1"), (Assert.Single(await _bench.FlagsAsync()).Status(), Assert.Single(await _bench.FlagsAsync()).Version()));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task ACorrectedValueWithdrawsWhatRestedOnTheOldOne(bool restarts)
    {
        await RoundAsync(restarts, Ward.Patient, Ward.Vacuum("o1", 220, 10));

        await RoundAsync(restarts, Ward.Vacuum("o1", 120, 10, status: "corrected"));

        await IsWithdrawnAsync();
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task ARowEnteredInErrorWithdrawsWhatRestedOnIt(bool restarts)
    {
        await RoundAsync(restarts, Ward.Patient, Ward.Vacuum("o1", 220, 10));

        await RoundAsync(restarts, Ward.Vacuum("o1", 220, 10, status: "entered-in-error"));

        await IsWithdrawnAsync();
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task ACorrectedValueThatStillBreachesAmendsTheSameResources(bool restarts)
    {
        await RoundAsync(restarts, Ward.Patient, Ward.Vacuum("o1", 220, 10));
        var before = Assert.Single(await _bench.IssuesAsync());

        await RoundAsync(restarts, Ward.Vacuum("o1", 180, 10, status: "corrected"));

        var (flag, issue) = (Assert.Single(await _bench.FlagsAsync()), Assert.Single(await _bench.IssuesAsync()));
        Assert.Equal((before.Key(), "amended", "active"), (issue.Key(), issue.Status(), flag.Status()));
        Assert.Contains("180", (string)flag["code"]!["text"]!, StringComparison.Ordinal);
        Assert.Equal(["CREATE 1: Observation/o1/_history/1", "UPDATE 2: Observation/o1/_history/2"], await _bench.ProvenancesAsync(issue), StringComparer.Ordinal);
        await _bench.NothingIsDoubledAsync();
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AfterAClearingANewBreachIsANewFlag(bool restarts)
    {
        await RoundAsync(restarts, Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await RoundAsync(restarts, Ward.Vacuum("o2", 120, 70));

        await RoundAsync(restarts, Ward.Vacuum("o3", 230, 130));

        var flags = await _bench.FlagsAsync();
        Assert.Equal(["inactive", "active"], flags.Select(flag => flag.Status()), StringComparer.Ordinal);
        Assert.NotEqual(flags[0].Key(), flags[1].Key(), StringComparer.Ordinal);
        Assert.Equal(2, (await _bench.IssuesAsync()).Count);
        await _bench.NothingIsDoubledAsync();
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AClearingThatIsTakenBackLetsTheSameFlagStandAgain(bool restarts)
    {
        await RoundAsync(restarts, Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await RoundAsync(restarts, Ward.Vacuum("o2", 120, 70));

        await RoundAsync(restarts, Ward.Vacuum("o2", 120, 70, status: "entered-in-error"));
        await RoundAsync(restarts, Ward.Vacuum("o3", 225, 130));

        var flag = Assert.Single(await _bench.FlagsAsync());
        Assert.Equal("active", flag.Status());
        Assert.Equal([FindingState.Open], await StatesAsync(FindingKind.Spell));
        await _bench.NothingIsDoubledAsync();
    }

    // What the sweep brings of our own earlier version must not look like a person's act while the newer one is not read yet.
    [Fact]
    public async Task OurOwnEarlierVersionIsNoPersonsClosing()
    {
        await RoundAsync(false, Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await RoundAsync(false, Ward.Vacuum("o2", 120, 70));
        await RoundAsync(false);
        await RoundAsync(false, Ward.Vacuum("o2", 120, 70, status: "entered-in-error"));
        var read = (await _bench.FlagsAsync())[0];

        await _bench.Ledger.KeepAsync([TestKit.Ledger.Charted.Vacuum(_bench.Ledger, "o9", "1", "Patient/p", 230, 200, 200)], null, TestContext.Current.CancellationToken);
        await _bench.UntilIdleAsync(() => _bench.Judge);

        Assert.Equal("3", read.Version());
        Assert.Equal([FindingState.Open], await StatesAsync(FindingKind.Spell));
    }

    [Fact]
    public async Task WhatAnotherCheckSaysLater_IsTakenBackWhereItWasShown()
    {
        await RoundAsync(false, Ward.Patient, Ward.Vacuum("o1", 220, 10));

        await RoundAsync(false, Ward.FullLine("m1", 10));

        Assert.Equal("entered-in-error", Assert.Single(await _bench.FlagsAsync()).Status());
        Assert.Equal("entered-in-error", Assert.Single(await _bench.IssuesAsync()).Status());
        Assert.Equal("active", Assert.Single(await _bench.FlagsAsync("regulator-on-full-line")).Status());
    }

    private async Task IsWithdrawnAsync()
    {
        var (flag, issue) = (Assert.Single(await _bench.FlagsAsync()), Assert.Single(await _bench.IssuesAsync()));
        Assert.Equal(("entered-in-error", "entered-in-error"), (flag.Status(), issue.Status()));
        Assert.Equal(["CREATE 1: Observation/o1/_history/1", "NULLIFY 2: Observation/o1/_history/1"], await _bench.ProvenancesAsync(issue), StringComparer.Ordinal);
        Assert.Equal(["CREATE 1: Observation/o1/_history/1", "NULLIFY 2: Observation/o1/_history/1"], await _bench.ProvenancesAsync(flag), StringComparer.Ordinal);
        Assert.Equal([FindingState.Withdrawn], await StatesAsync(FindingKind.Spell));
        Assert.Equal([FindingState.Withdrawn], await StatesAsync(FindingKind.Occurrence));
        await _bench.NothingIsDoubledAsync();
    }

    private async Task RoundAsync(bool restarts, params string[] resources)
    {
        _bench.RestartsBetween = restarts;
        foreach (var resource in resources)
        {
            await _bench.PutAsync(resource);
        }

        await _bench.RoundAsync();
    }

    private async Task<IEnumerable<FindingState>> StatesAsync(FindingKind kind) =>
        (await _bench.FindingsAsync()).Where(record => record.Kind == kind && record.Check == "vacuum-above-ceiling").Select(record => record.State);
}
