using System.Text.Json.Nodes;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>
/// Every act of a person at every moment of a finding's life: whatever the charting says later, what that person left is kept, never
/// written over and never made again. A Flag may still be ended and an issue still marked corrected, with that person's words in it.
/// </summary>
public sealed class PersonsHandTableTests : IAsyncLifetime
{
    private const string Words = "Known, surgeon informed";

    private PipelineBench _bench = null!;

    public static TheoryData<Moment, PersonsAct> Table
    {
        get
        {
            var rows = new TheoryData<Moment, PersonsAct>();
            foreach (var moment in Enum.GetValues<Moment>())
            {
                foreach (var act in Enum.GetValues<PersonsAct>())
                {
                    rows.Add(moment, act);
                }
            }

            return rows;
        }
    }

    public async ValueTask InitializeAsync() => _bench = await PipelineBench.StartAsync(Ward.Morning);

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Theory]
    [MemberData(nameof(Table))]
    public async Task WhatAPersonLeftIsKept(Moment moment, PersonsAct act)
    {
        await ReachAsync(moment);
        var key = Assert.Single(act < PersonsAct.IssueMitigated ? await _bench.FlagsAsync() : await _bench.IssuesAsync()).Key();
        var left = await ActAsync(act);

        // What was decided before is sent; then the row is corrected, a new breach charted, cleared, taken back, and charted again.
        await StepAsync("what waited is sent", act, key, left);
        await StepAsync("the row is corrected", act, key, left, Ward.Vacuum("o1", 185, 10, status: "corrected"));
        await StepAsync("the breach goes on", act, key, left, Ward.Vacuum("o3", 230, 300));
        await StepAsync("it ends", act, key, left, Ward.Vacuum("o4", 120, 360));
        await StepAsync("the row is taken back", act, key, left, Ward.Vacuum("o1", 185, 10, status: "entered-in-error"));
        await _bench.RestartAsync();
        await StepAsync("it comes again", act, key, left, Ward.Vacuum("o5", 240, 480));
        Assert.Empty(await _bench.Ledger.ParkedAsync(TestContext.Current.CancellationToken));
    }

    private async Task ReachAsync(Moment moment)
    {
        await ChartAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        switch (moment)
        {
            case Moment.BeforeSent:
                await _bench.PutAsync(Ward.Vacuum("o1", 180, 10, status: "corrected"));
                _bench.Clock.Now += TimeSpan.FromHours(1);
                await _bench.SweepAsync();
                await _bench.UntilIdleAsync(() => _bench.Judge);
                Assert.True((await _bench.Ledger.StateAsync(TestContext.Current.CancellationToken)).Pending > 0);
                break;
            case Moment.Amended:
                await ChartAsync(Ward.Vacuum("o1", 180, 10, status: "corrected"));
                break;
            case Moment.Cleared:
                await ChartAsync(Ward.Vacuum("o2", 120, 70));
                break;
            case Moment.Reopened:
                await ChartAsync(Ward.Vacuum("o2", 120, 70));
                await ChartAsync(Ward.Vacuum("o2", 120, 70, status: "entered-in-error"));
                Assert.Equal("active", (await _bench.FlagsAsync())[0].Status());
                break;
            case Moment.Withdrawn:
                await ChartAsync(Ward.Vacuum("o1", 220, 10, status: "entered-in-error"));
                break;
            default:
                break;
        }
    }

    private async Task<JsonObject> ActAsync(PersonsAct act)
    {
        var resource = (act < PersonsAct.IssueMitigated ? await _bench.FlagsAsync() : await _bench.IssuesAsync())[0];
        switch (act)
        {
            case PersonsAct.FlagDeleted or PersonsAct.IssueDeleted:
                await _bench.DeleteAsync(resource.Name());
                return resource;
            case PersonsAct.FlagInactive:
                resource["status"] = "inactive";
                resource["code"]!["text"] = Words;
                break;
            case PersonsAct.FlagEdited:
                resource["code"]!["text"] = Words;
                break;
            case PersonsAct.IssueMitigated:
                resource["mitigation"] = JsonNode.Parse("""[{"action":{"text":"Turned down"}}]""");
                break;
            default:
                resource["detail"] = Words;
                break;
        }

        await _bench.PutAsync(resource.ToJsonString());
        return resource;
    }

    private async Task StepAsync(string step, PersonsAct act, string key, JsonObject left, params string[] resources)
    {
        await ChartAsync(resources);
        var standing = (act < PersonsAct.IssueMitigated ? await _bench.AllAsync("Flag") : await _bench.AllAsync("DetectedIssue")).Where(one => one.Key() == key).ToList();
        if (act is PersonsAct.FlagDeleted or PersonsAct.IssueDeleted)
        {
            Assert.True(standing.Count == 0, $"{step}: made again");
            return;
        }

        Assert.True(standing.Count == 1, $"{step}: {standing.Count} stand");
        var (now, was) = (standing[0], left.Status());
        Assert.True(now.Name() == left.Name(), step);
        var kept = act switch
        {
            PersonsAct.FlagInactive => now.Status() == "inactive" && (string?)now["code"]!["text"] == Words,
            PersonsAct.FlagEdited => (now.Status() == was || now.Status() == "inactive") && (string?)now["code"]!["text"] == Words,
            PersonsAct.IssueMitigated => (now.Status() == was || now.Status() == "corrected") && JsonNode.DeepEquals(now["mitigation"], left["mitigation"]),
            _ => (now.Status() == was || now.Status() == "corrected") && ((string)now["detail"]!).StartsWith(Words, StringComparison.Ordinal),
        };
        Assert.True(kept, $"{step}: {now.Status()}, {(string?)now["code"]!["text"]}, {(string?)now["detail"]}");
    }

    private async Task ChartAsync(params string[] resources)
    {
        foreach (var resource in resources)
        {
            await _bench.PutAsync(resource);
        }

        await _bench.RoundAsync();
    }
}
