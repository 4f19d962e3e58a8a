using AirwayGuard.Core.Findings;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>
/// What happened too long ago is recorded with its DetectedIssue and raises no new Flag; what became known late says so. A backlog
/// must not turn into news.
/// </summary>
public sealed class OldAndLateTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        _bench.Basis = _bench.Basis with { NewFor = TimeSpan.FromHours(24) };
        await _bench.RestartAsync();
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    // A round takes its hour first: the breach is at minute 10.
    [Theory]
    [InlineData(24 * 60 + 10, 1)] // 24 hours after it: still new
    [InlineData(24 * 60 + 11, 0)]
    public async Task AtTheFirstSweepOverAnOldChart_WhatHappenedTooLongAgoRaisesNoFlag(int minutes, int flags)
    {
        await PutAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));

        await _bench.RoundAsync(TimeSpan.FromMinutes(minutes));

        Assert.Equal(flags, (await _bench.FlagsAsync()).Count);
        Assert.Equal("final", Assert.Single(await _bench.IssuesAsync()).Status());
        var spell = Assert.Single(await SpellsAsync());
        Assert.Equal((FindingState.Open, flags == 1 ? Withholding.None : Withholding.Old), (spell.State, Content(spell).Withheld));
    }

    [Fact]
    public async Task AfterAnOutage_TheBacklogIsRecordedAndNotShown_AndWhatIsNewIs()
    {
        await RoundAsync(TimeSpan.FromHours(1), Ward.Patient);

        await RoundAsync(TimeSpan.FromHours(30), Ward.Vacuum("o1", 220, 70));
        var old = Assert.Single(await SpellsAsync());
        Assert.Empty(await _bench.FlagsAsync());

        await RoundAsync(TimeSpan.FromMinutes(10), Ward.Vacuum("o2", 230, 31 * 60));

        var flag = Assert.Single(await _bench.FlagsAsync());
        Assert.Equal(("active", old.Key.ToString()), (flag.Status(), flag.Key()));
        Assert.Equal(2, (await _bench.IssuesAsync()).Count);
        Assert.Equal(Withholding.None, Content(Assert.Single(await SpellsAsync())).Withheld);
    }

    [Fact]
    public async Task AnOldSpellThatEnds_LeavesNoFlag()
    {
        await RoundAsync(TimeSpan.FromHours(30), Ward.Patient, Ward.Vacuum("o1", 220, 70));

        await RoundAsync(TimeSpan.FromMinutes(10), Ward.Vacuum("o2", 120, 30 * 60));

        Assert.Empty(await _bench.FlagsAsync());
        Assert.Equal((FindingState.Cleared, Withholding.Old), (Assert.Single(await SpellsAsync()).State, Content(Assert.Single(await SpellsAsync())).Withheld));
    }

    [Fact]
    public async Task AnOldFindingThatAPersonAnswers_LeavesNoFlag()
    {
        await RoundAsync(TimeSpan.FromHours(30), Ward.Patient, Ward.Vacuum("o1", 220, 70));
        var issue = Assert.Single(await _bench.IssuesAsync());
        issue["mitigation"] = System.Text.Json.Nodes.JsonNode.Parse("""[{"action":{"text":"Seen"}}]""");

        await RoundAsync(TimeSpan.FromMinutes(10), issue.ToJsonString());

        Assert.Empty(await _bench.FlagsAsync());
        Assert.Equal(FindingState.ClosedByPerson, Assert.Single(await SpellsAsync()).State);
    }

    [Fact]
    public async Task AFlagThatWasShownInTime_IsKeptUpHoweverOldItIs()
    {
        await RoundAsync(TimeSpan.FromHours(1), Ward.Patient, Ward.Vacuum("o1", 220, 10));

        await RoundAsync(TimeSpan.FromHours(40), Ward.Vacuum("o1", 210, 10, status: "corrected"));
        Assert.Equal(("active", "2"), (Assert.Single(await _bench.FlagsAsync()).Status(), Assert.Single(await _bench.FlagsAsync()).Version()));
        await RoundAsync(TimeSpan.FromHours(1), Ward.Vacuum("o2", 120, 41 * 60));

        Assert.Equal("inactive", Assert.Single(await _bench.FlagsAsync()).Status());
    }

    // An order in force is so today, however long ago it was written.
    [Fact]
    public async Task AnOrderWrittenLongAgo_IsShownAllTheSame()
    {
        await RoundAsync(TimeSpan.FromHours(90), Ward.Patient, OrderByTheClock);

        Assert.Equal(Withholding.None, Content(Assert.Single(await SpellsAsync("suction-ordered-by-clock"))).Withheld);
        Assert.Equal("active", Assert.Single(await _bench.FlagsAsync("suction-ordered-by-clock")).Status());
    }

    [Fact]
    public async Task WhatBecameKnownLate_SaysSo_AndWhatWasThereBeforeTheFirstSweepDoesNot()
    {
        await RoundAsync(TimeSpan.FromHours(5), Ward.Patient, Ward.Pass("first", 25, 10));
        await RoundAsync(TimeSpan.FromHours(1), Ward.Pass("intime", 25, 5 * 60));
        await RoundAsync(TimeSpan.FromHours(1), Ward.Pass("late", 25, 3 * 60));

        var issues = await _bench.FindingsAsync();
        Assert.Equal(
            [("05:00", false), ("03:00", true), ("00:10", false)],
            issues.Where(one => one.Check == "pass-too-long").OrderByDescending(one => one.First).Select(one => (At(one), one.Late)).OrderByDescending(one => one.Item1, StringComparer.Ordinal));
        Assert.Equal(1, (await _bench.IssuesAsync("pass-too-long")).Count(one => one.ToJsonString().Contains("Became known late.", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task AFlagIsAsLateAsItsLatestBreach_AndStaysSo()
    {
        await RoundAsync(TimeSpan.FromHours(1), Ward.Patient);
        await RoundAsync(TimeSpan.FromMinutes(10));
        await RoundAsync(TimeSpan.FromHours(5), Ward.Vacuum("late", 220, 70));
        var late = Assert.Single(await _bench.FlagsAsync());
        await RoundAsync(TimeSpan.FromMinutes(10), Ward.Vacuum("intime", 230, 6 * 60));
        var inTime = Assert.Single(await _bench.FlagsAsync());
        await RoundAsync(TimeSpan.FromHours(9), Ward.Vacuum("intime", 240, 6 * 60, status: "corrected"));
        var corrected = Assert.Single(await _bench.FlagsAsync());

        Assert.EndsWith(" Became known late.", Said(late), StringComparison.Ordinal);
        Assert.Contains("Happened 2026-03-02 09:10:00 +00:00. Became known late.", (string)late["text"]!["div"]!, StringComparison.Ordinal);
        Assert.DoesNotContain("late", Said(inTime), StringComparison.Ordinal);
        Assert.Contains("240", Said(corrected), StringComparison.Ordinal);
        Assert.DoesNotContain("late", Said(corrected), StringComparison.Ordinal);
    }

    private static string Said(System.Text.Json.Nodes.JsonObject flag) => (string)flag["code"]!["text"]!;

    private const string OrderByTheClock =
        """{"resourceType":"ServiceRequest","id":"r","status":"active","intent":"order","authoredOn":"2026-03-02T07:00:00Z","subject":{"reference":"Patient/p"},"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"suction-pass"}]},"occurrenceTiming":{"repeat":{"frequency":1,"period":2,"periodUnit":"h"}}}""";

    private static string At(FindingRecord record) => (new DateTimeOffset(record.First, TimeSpan.Zero) - Ward.Morning).ToString("hh\\:mm", System.Globalization.CultureInfo.InvariantCulture);

    private static FindingContent Content(FindingRecord record) => FindingContent.Read(record.Content.Span);

    private async Task<IReadOnlyList<FindingRecord>> SpellsAsync(string check = "vacuum-above-ceiling") =>
        [.. (await _bench.FindingsAsync()).Where(record => record.Kind == FindingKind.Spell && record.Check == check)];

    private async Task RoundAsync(TimeSpan passes, params string[] resources)
    {
        await PutAsync(resources);
        await _bench.RoundAsync(passes);
    }

    private async Task PutAsync(params string[] resources)
    {
        foreach (var resource in resources)
        {
            await _bench.PutAsync(resource);
        }
    }
}
