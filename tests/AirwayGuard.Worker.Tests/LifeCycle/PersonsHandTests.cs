using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>What a person did to a Flag or DetectedIssue on the server is kept, recorded, and final for its spell.</summary>
public sealed class PersonsHandTests : IAsyncLifetime
{
    private const string Wide = "catheter-too-wide", Ceiling = "vacuum-above-ceiling";

    private PipelineBench _bench = null!;

    public async ValueTask InitializeAsync() => _bench = await PipelineBench.StartAsync(Ward.Morning);

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AFlagSetInactiveStaysSoWhileTheBreachGoesOn(bool restarts)
    {
        _bench.RestartsBetween = restarts;
        await RoundAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        var left = await ChangeAsync((await _bench.FlagsAsync())[0], flag => flag["status"] = "inactive");

        await RoundAsync(Ward.Vacuum("o2", 225, 70));
        await RoundAsync(Ward.Vacuum("o3", 230, 130));

        var flag = Assert.Single(await _bench.FlagsAsync());
        Assert.Equal(("inactive", left), (flag.Status(), flag.Version()));
        Assert.Equal(3, (await _bench.IssuesAsync()).Count);
        Assert.Equal([FindingState.ClosedByPerson], await SpellsAsync(Ceiling));
        Assert.Single(await _bench.AuditAsync("finding-closebyperson"));
        await _bench.NothingIsDoubledAsync();
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AfterAClearing_ANewBreachIsShownAgain(bool restarts)
    {
        _bench.RestartsBetween = restarts;
        await RoundAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await ChangeAsync((await _bench.FlagsAsync())[0], flag => flag["status"] = "inactive");
        await RoundAsync(Ward.Vacuum("o2", 120, 70));

        await RoundAsync(Ward.Vacuum("o3", 230, 130));

        Assert.Equal(["inactive", "active"], (await _bench.FlagsAsync()).Select(flag => flag.Status()), StringComparer.Ordinal);
        Assert.Equal([FindingState.ClosedByPerson, FindingState.Open], await SpellsAsync(Ceiling));
        await _bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task WithinAClosedSpell_AHigherSeverityIsShownAgain_AndNamesTheClosedFlag()
    {
        await RoundAsync([Ward.Patient, .. Ward.Tube, Ward.Pass("s1", 8, 10), Ward.Catheter("c1", 14, 10)]);
        var closed = Assert.Single(await _bench.FlagsAsync(Wide));
        await ChangeAsync(closed, flag => flag["status"] = "inactive");
        await RoundAsync(Ward.Pass("s2", 8, 70), Ward.Catheter("c2", 14, 70));
        Assert.Single(await _bench.FlagsAsync(Wide));

        await RoundAsync(Ward.Pass("s3", 8, 130), Ward.Catheter("c3", 18, 130));
        await RoundAsync();

        var flags = await _bench.FlagsAsync(Wide);
        Assert.Equal(["inactive", "active"], flags.Select(flag => flag.Status()), StringComparer.Ordinal);
        var record = (await _bench.FindingsAsync()).Single(one => one.Key.ToString() == flags[0].Key());
        var content = FindingContent.Read(record.Content.Span);
        Assert.Equal(FindingKeys.Flag(Wide, content.Line, content.Anchor, 2).ToString(), flags[1].Key());
        Assert.Contains(flags[1]["extension"]!.AsArray(), one => (string?)one!["valueReference"]?["identifier"]?["value"] == closed.Key());
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AMitigatedIssueIsKept_AndItsFlagEnds(bool restarts)
    {
        _bench.RestartsBetween = restarts;
        await RoundAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        var left = await ChangeAsync((await _bench.IssuesAsync())[0], Mitigate);

        await RoundAsync();
        await RoundAsync(Ward.Vacuum("o2", 225, 70));

        var (flag, issue) = (Assert.Single(await _bench.FlagsAsync()), (await _bench.IssuesAsync())[0]);
        Assert.Equal(("inactive", "2"), (flag.Status(), flag.Version()));
        Assert.NotNull((string?)flag["period"]!["end"]);
        Assert.Equal((left, "final", "Turned down"), (issue.Version(), issue.Status(), (string)issue["mitigation"]![0]!["action"]!["text"]!));
        Assert.Equal([FindingState.ClosedByPerson], await SpellsAsync(Ceiling));
        await _bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task AMitigationClosesTheFlagItWasAnswerTo_AndNotTheOneShownAgain()
    {
        await RoundAsync([Ward.Patient, .. Ward.Tube, Ward.Pass("s1", 8, 10), Ward.Catheter("c1", 14, 10)]);
        await ChangeAsync((await _bench.IssuesAsync(Wide))[0], Mitigate);
        await RoundAsync();
        await RoundAsync(Ward.Pass("s2", 8, 130), Ward.Catheter("c2", 18, 130));
        await RoundAsync(Ward.Pass("s3", 8, 190), Ward.Catheter("c3", 18, 190));

        Assert.Equal(["inactive", "active"], (await _bench.FlagsAsync(Wide)).Select(flag => flag.Status()), StringComparer.Ordinal);
        Assert.Equal([FindingState.ClosedByPerson, FindingState.Open], await SpellsAsync(Wide));
    }

    [Fact]
    public async Task AnIssueOfACheckThatDoesNotStand_IsClosedByItsMitigationToo()
    {
        await RoundAsync(Ward.Patient, Ward.Pass("s1", 25, 10));
        await ChangeAsync((await _bench.IssuesAsync("pass-too-long"))[0], Mitigate);

        await RoundAsync();
        await RoundAsync(Ward.Pass("s1", 22, 10, status: "corrected"));

        Assert.Equal([FindingState.ClosedByPerson], (await _bench.FindingsAsync()).Where(record => record.Check == "pass-too-long").Select(record => record.State));
        Assert.Equal("2", (await _bench.IssuesAsync("pass-too-long"))[0].Version());
        Assert.Single(await _bench.AuditAsync("person-closed"));
    }

    [Fact]
    public async Task AMitigatedIssueWhoseRowIsTakenBack_IsCorrectedAndNotStruckOut()
    {
        await RoundAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await ChangeAsync((await _bench.IssuesAsync())[0], Mitigate);

        await RoundAsync(Ward.Vacuum("o1", 220, 10, status: "entered-in-error"));

        var issue = Assert.Single(await _bench.IssuesAsync());
        Assert.Equal(("corrected", 1), (issue.Status(), issue["mitigation"]!.AsArray().Count));
    }

    [Fact]
    public async Task AnEditedFlagIsLeftAsThatPersonLeftIt_RecordedOnce_AndStillEndedByAClearing()
    {
        await RoundAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        var left = await ChangeAsync((await _bench.FlagsAsync())[0], flag => flag["code"]!["text"] = "Known, surgeon informed");

        await RoundAsync(Ward.Vacuum("o2", 225, 70));
        var kept = Assert.Single(await _bench.FlagsAsync());
        await RoundAsync(Ward.Vacuum("o3", 120, 130));
        var ended = Assert.Single(await _bench.FlagsAsync());

        Assert.Equal(("active", left, "Known, surgeon informed"), (kept.Status(), kept.Version(), (string)kept["code"]!["text"]!));
        Assert.Equal(("inactive", "Known, surgeon informed"), (ended.Status(), (string)ended["code"]!["text"]!));
        Assert.Contains(await _bench.AuditAsync("person-changed"), entry => entry.Subject == kept.Key());
        Assert.Empty(await _bench.AuditAsync("person-closed"));
    }

    [Fact]
    public async Task AnEditedIssueIsLeftAsThatPersonLeftIt()
    {
        await RoundAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        var left = await ChangeAsync((await _bench.IssuesAsync())[0], issue => issue["detail"] = "Seen on the round");

        await RoundAsync(Ward.Vacuum("o1", 210, 10, status: "corrected"));

        var issue = Assert.Single(await _bench.IssuesAsync());
        Assert.Equal((left, "Seen on the round"), (issue.Version(), (string)issue["detail"]!));
        Assert.Contains(await _bench.AuditAsync("person-changed"), entry => entry.Subject == issue.Key());
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task ADeletedFlagIsNotMadeAgain_AndItsSpellIsClosed(bool restarts)
    {
        _bench.RestartsBetween = restarts;
        await RoundAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await _bench.DeleteAsync((await _bench.FlagsAsync())[0].Name());

        await RoundAsync(Ward.Vacuum("o2", 225, 70));
        await RoundAsync(Ward.Vacuum("o3", 230, 130));

        Assert.Empty(await _bench.FlagsAsync());
        Assert.Equal([FindingState.ClosedByPerson], await SpellsAsync(Ceiling));
        Assert.Single(await _bench.AuditAsync("person-closed"));
        Assert.Single(await _bench.AuditAsync("finding-closebyperson"));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task ADeletedIssueIsNotMadeAgain_AndClosesNothing_WhetherItIsWrittenNextOrNot(bool isAmended)
    {
        await RoundAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await _bench.DeleteAsync((await _bench.IssuesAsync())[0].Name());

        await RoundAsync(isAmended ? Ward.Vacuum("o1", 230, 10, status: "corrected") : Ward.Vacuum("o2", 225, 70));
        await RoundAsync();

        Assert.Equal(isAmended ? 0 : 1, (await _bench.IssuesAsync()).Count);
        Assert.Equal("active", Assert.Single(await _bench.FlagsAsync()).Status());
        Assert.Equal([FindingState.Open], await SpellsAsync(Ceiling));
        Assert.Empty(await _bench.AuditAsync("person-closed"));
        Assert.Equal(isAmended ? 1 : 0, (await _bench.AuditAsync("person-changed")).Count);
    }

    private static void Mitigate(JsonObject issue) => issue["mitigation"] = JsonNode.Parse("""[{"action":{"text":"Turned down"}}]""");

    // As a person would: reads what stands, changes it, writes it back.
    private async Task<string> ChangeAsync(JsonObject resource, Action<JsonObject> change)
    {
        change(resource);
        await _bench.PutAsync(resource.ToJsonString());
        return (await _bench.AllAsync((string)resource["resourceType"]!)).Single(one => one.Name() == resource.Name()).Version();
    }

    private async Task RoundAsync(params string[] resources)
    {
        foreach (var resource in resources)
        {
            await _bench.PutAsync(resource);
        }

        await _bench.RoundAsync();
    }

    private async Task<IEnumerable<FindingState>> SpellsAsync(string check) =>
        (await _bench.FindingsAsync()).Where(record => record.Check == check && record.Kind == FindingKind.Spell).OrderBy(record => record.First).ThenBy(record => record.State == FindingState.Open)
        .Select(record => record.State);
}
