using System.Globalization;
using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Host.DemoWard;
using AirwayGuard.Host.Tests.DemoWard;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Histories;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Sending;
using Microsoft.Extensions.DependencyInjection;
using Xunit;
using Charted = AirwayGuard.TestKit.Ledger.Charted;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>
/// Nothing is hidden: what was raised is what is shown and what is withheld. What is shown is held against what was handed out to be
/// written, and not against the counts themselves.
/// </summary>
public sealed class RaisedCountsTests
{
    private static readonly CancellationToken Stop = TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("AirwayGuard:Mode=live")]
    [InlineData("AirwayGuard:Mode=live", "AirwayGuard:NewForHours=1")]
    [InlineData("AirwayGuard:Mode=silent")]
    public async Task RandomHistories_AddUp(params string[] settings)
    {
        await using var service = await GivenService.StartAsync(settings);
        var reader = new FhirArrivalReader(ShippedMaps.StandardCodes);
        for (var seed = 0; seed < 12; seed++)
        {
            var rows = HistoryRenderer.Render(HistoryGenerator.Next(seed, $"p{seed}"));
            foreach (var part in rows.Chunk((rows.Count / 3) + 1))
            {
                await KeepAsync(service, reader, part.Select((json, index) => Charting(json, $"{seed}-{index}")));
            }
        }

        await AddsUpAsync(service, await SendAsync(service));
    }

    [Theory]
    [InlineData("demo")]
    [InlineData("demo", "AirwayGuard:NewForHours=1")]
    public async Task TheDemoWard_AddsUp(params string[] settings)
    {
        await using var service = await GivenService.StartAsync(settings);
        var reader = new FhirArrivalReader(ShippedMaps.WithDemoRows);
        await KeepAsync(service, reader, WardPlan.Build(WardJudging.End, 1).Select(one => Charting(Encoding.UTF8.GetString(one.Json.Span), "1")));
        await KeepAsync(service, reader, WardPlan.Corrections(WardJudging.End, 1).Select(one => Charting(Encoding.UTF8.GetString(one.Json.Span), "2")));

        var written = await SendAsync(service);

        Assert.NotEmpty(written.Keys);
        await AddsUpAsync(service, written);
    }

    private static async Task AddsUpAsync(GivenService service, Written written)
    {
        var lines = (await service.TextAsync("/metrics")).Split('\n');
        var rules = service.Services.GetRequiredService<BasisInForce>().Current.Rules;
        var all = 0L;
        var withheld = 0L;
        foreach (var rule in rules.Rules)
        {
            var (raised, shown, kept) = (Of("raised"), Of("shown"), Of("withheld"));

            Assert.True(raised == shown + kept, $"{rule.Id}: {raised} raised, {shown} shown, {kept} withheld");
            Assert.True(await RecordedAsync(service, rule.Id) == raised, $"{rule.Id}: {raised} raised, another number recorded");
            Assert.True(written.Count(rule.Id, rule.Stands != Core.Judging.Standing.Once) == shown, $"{rule.Id}: {shown} shown, another number written");
            (all, withheld) = (all + raised, withheld + kept);
            long Of(string what) => Value(lines, $"airwayguard_findings_{what}_total{{check=\"{rule.Id}\"}}");
        }

        Assert.True(all > 0, "Nothing was raised.");
        Assert.Equal(withheld, lines.Where(line => line.StartsWith("airwayguard_findings_withheld_by_reason_total{", StringComparison.Ordinal)).Sum(line => Value([line], line.Split(' ')[0])));
    }

    private static long Value(IEnumerable<string> lines, string sample) =>
        long.Parse(lines.Single(line => line.StartsWith(sample + " ", StringComparison.Ordinal)).Split(' ')[^1], CultureInfo.InvariantCulture);

    private static async Task<int> RecordedAsync(GivenService service, string check)
    {
        var count = 0;
        await foreach (var history in service.Ledger.HistoryAsync(new HistoryRange(TimeRange.All, Core.Charting.Position.Never, 0, 1), Stop))
        {
            using (history.Facts)
            {
                count += (await service.Ledger.FindingsAsync(history.Patient, Stop)).Count(record => record.Kind != FindingKind.CannotTell && record.Check == check && record.Parent == Guid.Empty);
            }
        }

        return count;
    }

    private static async Task KeepAsync(GivenService service, FhirArrivalReader reader, IEnumerable<Arrival> arrivals)
    {
        await service.KeepAsync(reader, arrivals);
        var judge = service.Services.GetRequiredService<JudgeStep>();
        while (await judge.StepAsync(Stop) == StepResult.DidWork)
        {
        }
    }

    private static async Task<Written> SendAsync(GivenService service)
    {
        var written = new Written();
        var send = new SendStep(service.Ledger, [written], new SendOptions(), new SetClock(Charted.Morning));
        while (await send.StepAsync(Stop) == StepResult.DidWork)
        {
        }

        return written;
    }

    internal static Arrival Charting(string json, string version)
    {
        using var document = JsonDocument.Parse(json);
        var root = document.RootElement;
        return new Arrival(
            ArrivalKind.Resource, "test", root.GetProperty("resourceType").GetString(), root.GetProperty("id").GetString(), version, Charted.Morning, KnownBy.Import, Encoding.UTF8.GetBytes(json));
    }

    /// <summary>Takes everything, and remembers each key once.</summary>
    private sealed class Written : ISink
    {
        public Dictionary<Guid, (string Check, bool IsFlag)> Keys { get; } = [];

        public bool Takes(string kind) => true;

        public int Count(string check, bool isFlag) => Keys.Values.Count(one => one.Check == check && one.IsFlag == isFlag);

        public ValueTask<SinkAnswer> SendAsync(Outgoing outgoing, ServerVersion? last, DateTimeOffset until, CancellationToken stop)
        {
            using var json = JsonDocument.Parse(outgoing.Content);
            Keys[outgoing.Key] = (json.RootElement.GetProperty("check").GetString()!, outgoing.Kind == MessageJson.Flag);
            return ValueTask.FromResult(new SinkAnswer(SendState.Confirmed, new ServerVersion(outgoing.Key.ToString(), "1"), false, false, null, null));
        }
    }
}
