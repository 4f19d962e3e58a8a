using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.DemoWard;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.Host.Tests.Service;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace AirwayGuard.Host.Tests.Documents;

/// <summary>What <c>docs/cds-hooks.md</c> shows of the demo is what the demo answers: every example is sent, in the page's order.</summary>
public sealed class CdsHooksPageTests
{
    private const string Any = "…";

    private static readonly string Root = Path.Combine(ScenarioFolders.Root, "..");

    [Fact]
    public async Task EveryExampleOfThePage_ComesBackAsShown()
    {
        var steps = TutorialPage.Fenced("docs/cds-hooks.md").Where(fence => fence.Info.Split(' ') is ["json", _, ..]).ToList();
        Assert.True(steps.Count >= 7, $"{steps.Count} examples");
        await using var service = await WardAsync();
        foreach (var (info, content, line) in steps)
        {
            var (status, body) = await SendAsync(service, info.Split(' '));
            var expected = info.Split(' ') is [_, _, _, var shown] ? int.Parse(shown, CultureInfo.InvariantCulture) : 200;
            Assert.True(expected == (int)status, $"line {line}: {info} gave {(int)status}\n{body}");
            if (content.Length == 0)
            {
                Assert.Equal("", body);
                continue;
            }

            Assert.True(Fits(JsonNode.Parse(content), JsonNode.Parse(body)), $"line {line}: {info} gave\n{body}");
        }
    }

    [Fact]
    public async Task EverySampleRequest_IsOnThePage()
    {
        var page = await File.ReadAllTextAsync(Path.Combine(Root, "docs", "cds-hooks.md"), TestContext.Current.CancellationToken);

        Assert.All(Directory.GetFiles(Path.Combine(ScenarioFolders.Root, "cds-hooks"), "*.json"), file => Assert.Contains(Path.GetFileName(file), page, StringComparison.Ordinal));
    }

    private static async Task<(HttpStatusCode Status, string Body)> SendAsync(GivenService service, string[] info)
    {
        if (info[1] == "GET")
        {
            using var found = await service.GetAsync(info[2]);
            return (found.StatusCode, await found.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        }

        var json = await File.ReadAllTextAsync(Path.Combine(ScenarioFolders.Root, "cds-hooks", info[2]), TestContext.Current.CancellationToken);
        // The page is for the usual port, and tests listen on a free one.
        json = json.Replace("http://127.0.0.1:8480/fhir", service.Services.GetRequiredService<Host.Service.ServicePlan>().FhirBase.AbsoluteUri, StringComparison.Ordinal);
        using var body = new StringContent(json, Encoding.UTF8, "application/json");
        using var answer = await service.SendAsync(HttpMethod.Post, "/cds-services/" + info[1], body);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    // "…" alone stands for anything, and as the last item of a list for the rest of it.
    private static bool Fits(JsonNode? shown, JsonNode? sent)
    {
        if (shown is JsonValue text && text.TryGetValue<string>(out var words) && words == Any)
        {
            return sent is not null;
        }

        switch (shown)
        {
            case JsonObject members:
                return sent is JsonObject others && members.Select(one => one.Key).Order(StringComparer.Ordinal).SequenceEqual(others.Select(one => one.Key).Order(StringComparer.Ordinal), StringComparer.Ordinal)
                    && members.All(one => Fits(one.Value, others[one.Key]));
            case JsonArray items:
                var isOpen = items.Count > 0 && items[^1] is JsonValue last && last.TryGetValue<string>(out var end) && end == Any;
                var count = isOpen ? items.Count - 1 : items.Count;
                return sent is JsonArray found && (isOpen ? found.Count >= count : found.Count == count) && Enumerable.Range(0, count).All(i => Fits(items[i], found[i]));
            default:
                return JsonNode.DeepEquals(shown, sent);
        }
    }

    // The demo's ward as it stands once loaded and judged: its 48 hours end when it is loaded.
    private static async Task<GivenService> WardAsync()
    {
        var service = await GivenService.StartAsync("demo");
        var reader = service.Services.GetRequiredService<IArrivalReader>();
        var now = SystemClock.Instance.GetUtcNow();
        foreach (var batch in WardPlan.Build(now, 1).Concat(WardPlan.Corrections(now, 1)).Chunk(500))
        {
            await service.Ledger.KeepAsync([.. batch.Select(one => Read(one, reader, service.Ledger, now))], null, TestContext.Current.CancellationToken);
        }

        foreach (var query in service.Services.GetRequiredService<SweepStep>().Asked.Select(SweepNames.CursorName).Append(JudgeStep.FirstSweep))
        {
            await service.Ledger.KeepAsync([], new SweepCursor(query, now, null), TestContext.Current.CancellationToken);
        }

        var judge = service.Services.GetRequiredService<JudgeStep>();
        while (await judge.StepAsync(TestContext.Current.CancellationToken) == StepResult.DidWork)
        {
        }

        return service;
    }

    private static ReadArrival Read(WardResource one, IArrivalReader reader, ILedger ledger, DateTimeOffset now)
    {
        var reading = new Core.Ports.Reading();
        var arrival = new Arrival(ArrivalKind.Resource, "ward", one.Type, one.Id, null, now, KnownBy.ServersStamp, one.Json);
        reader.Read(arrival, ledger.Entities, reading);
        return new ReadArrival(arrival, reading);
    }
}
