using System.Text.Json.Nodes;
using AirwayGuard.Storage.Auditing;
using AirwayGuard.TestKit.Habits;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Tests.LifeCycle;
using Xunit;

namespace AirwayGuard.Worker.Tests.Habits;

/// <summary>
/// One day with everything that becomes of a finding, the service stopped and started at times between: raised, cleared, raised again, amended,
/// withdrawn, closed by a person, edited by a person while our update is under way, deleted by a person. What stands at its end does
/// not hang on the habits of the server.
/// </summary>
internal sealed class HabitScenario(PipelineBench bench, int rounds)
{
    private const int StagesBetweenStarts = 3;

    private static readonly TimeSpan Stage = TimeSpan.FromMinutes(40);

    private int _stages;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private int Minutes => (int)(bench.Clock.Now - Ward.Morning).TotalMinutes;

    public static async Task<IReadOnlyList<string>> RunAsync(HabitSwitch habit)
    {
        await using var bench = await PipelineBench.StartAsync(Ward.Morning, habit.Settings());
        var scenario = new HabitScenario(bench, habit.RoundsAStage);
        await scenario.RunAsync();
        return await scenario.StandingAsync();
    }

    private async Task RunAsync()
    {
        await StageAsync([Ward.Patient, .. Ward.Tube, Ward.Vacuum("o1", 220, Minutes), Ward.Pass("s1", 25, Minutes)]);
        await StageAsync(Ward.Vacuum("o2", 120, Minutes));
        var third = Minutes;
        await StageAsync(Ward.Vacuum("o3", 230, third));
        await StageAsync(Ward.Vacuum("o3", 190, third, status: "corrected"));
        await StageAsync(Ward.Vacuum("o3", 190, third, status: "entered-in-error"));

        var fourth = Minutes;
        await StageAsync(Ward.Vacuum("o4", 240, fourth));
        await ChangeAsync("Flag", "active", flag => flag["status"] = "inactive");
        await StageAsync(Ward.Vacuum("o5", 250, Minutes));
        await StageAsync(Ward.Vacuum("o6", 110, Minutes));

        // A person mitigates the issue between our reading it and our writing over it.
        var seventh = Minutes;
        await StageAsync(Ward.Vacuum("o7", 225, seventh));
        bench.Wire.Fault = async (request, pass) =>
        {
            if (request.Method == HttpMethod.Put && request.RequestUri!.AbsolutePath.Contains("/DetectedIssue/", StringComparison.Ordinal))
            {
                bench.Wire.Fault = null;
                await ChangeAsync(request.RequestUri.AbsolutePath["/fhir/".Length..], issue => issue["mitigation"] = JsonNode.Parse("""[{"action":{"text":"Turned down"}}]"""));
            }

            return await pass();
        };
        await StageAsync(Ward.Vacuum("o7", 180, seventh, status: "corrected"));
        Assert.Null(bench.Wire.Fault);
        await StageAsync(Ward.Vacuum("o8", 115, Minutes));

        await StageAsync(Ward.Vacuum("o9", 260, Minutes));
        await bench.DeleteAsync((await bench.AllAsync("Flag")).Single(flag => flag.Status() == "active").Name());
        await StageAsync(Ward.Vacuum("o10", 265, Minutes));
        await StageAsync();
        await StageAsync();
    }

    /// <summary>All that the server and the ledger hold of it, without what may differ: ids, versions, times.</summary>
    private async Task<IReadOnlyList<string>> StandingAsync()
    {
        await bench.NothingIsDoubledAsync();
        var lines = new List<string>();
        foreach (var resource in (await bench.AllAsync("Flag")).Concat(await bench.AllAsync("DetectedIssue")).OrderBy(resource => resource.Key(), StringComparer.Ordinal))
        {
            var said = (string?)resource["detail"] ?? (string?)resource["code"]!["text"];
            lines.Add($"{resource["resourceType"]} {resource.Key()} {resource.Status()} mitigations {(resource["mitigation"] as JsonArray)?.Count ?? 0}: {said}");
        }

        lines.AddRange((await bench.FindingsAsync()).Select(record => $"{record.Kind} {record.Check} {record.State} {record.Key}").Order(StringComparer.Ordinal));
        lines.AddRange((await bench.Ledger.ParkedAsync(Stop)).Select(parked => $"parked {parked.Code}"));
        var state = await bench.Ledger.StateAsync(Stop);
        lines.Add($"pending {state.Pending} unknown {state.Unknown} parked {state.Parked} waiting {state.PatientsWaiting}");
        lines.Add($"authors {(await bench.AllAsync("Device")).Count(device => device["identifier"] is not null)}");
        lines.Add($"audit {(await AuditChain.Verify(bench.Ledger.AuditTrailAsync(Stop), [], Stop)).Fault}");
        return lines;
    }

    private async Task StageAsync(params string[] resources)
    {
        foreach (var resource in resources)
        {
            await bench.PutAsync(resource);
        }

        for (var round = 0; round < rounds; round++)
        {
            await bench.RoundAsync(Stage / rounds);
        }

        if (++_stages % StagesBetweenStarts == 0)
        {
            await bench.RestartAsync();
        }
    }

    private async Task ChangeAsync(string type, string status, Action<JsonObject> change) =>
        await ChangeAsync((await bench.AllAsync(type)).Single(one => one.Status() == status).Name(), change);

    private async Task ChangeAsync(string name, Action<JsonObject> change)
    {
        var resource = (await bench.AllAsync(name.Split('/')[0])).Single(one => one.Name() == name);
        change(resource);
        await bench.PutAsync(resource.ToJsonString());
    }
}
