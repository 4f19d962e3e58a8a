using System.Globalization;
using System.Text;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Host.DemoWard;
using AirwayGuard.Host.Service;
using AirwayGuard.Host.Tests.DemoWard;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Checking;
using AirwayGuard.Worker.Judging;
using Microsoft.Extensions.DependencyInjection;
using Xunit;
using Charted = AirwayGuard.TestKit.Ledger.Charted;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>The service counts what cannot be told as <c>check</c> does, over the demo ward with every tube and birth date taken out.</summary>
public sealed class CannotTellCountsTests
{
    private static readonly CancellationToken Stop = TestContext.Current.CancellationToken;

    [Fact]
    public async Task MetricsTellWhatCheckTells_AndThePagesGapsAreOfTheLastDay()
    {
        var ward = WardPlan.Build(WardJudging.End, 1).Where(one => !Text(one).Contains("\"birthDate\"", StringComparison.Ordinal)).ToList();
        var told = (await WardJudging.Judge(ward, settings: new CheckSettings(WardJudging.End, UnknownAge.CannotTell))).CannotTell;
        await using var service = await GivenService.StartAsync("demo");
        await KeepAndJudgeAsync(service, ward.Select(Text));

        var lines = (await service.TextAsync("/metrics")).Split('\n');

        Assert.True(told.Length > 50, $"{told.Length}");
        foreach (var rule in service.Services.GetRequiredService<BasisInForce>().Current.Rules.Rules)
        {
            var mine = told.Where(one => one.CannotTell.Rule.Id == rule.Id).ToList();
            Assert.Equal(
                (rule.Id, mine.Count, mine.Sum(one => one.CannotTell.Count)),
                (rule.Id, Value(lines, $"airwayguard_findings{{check=\"{rule.Id}\",verdict=\"cannot-tell\",state=\"open\"}}"), Value(lines, $"airwayguard_cannot_tell_subjects{{check=\"{rule.Id}\"}}")));
        }

        var gaps = await NotTold.ReadAsync(service.Ledger, WardJudging.End, Stop);
        Assert.Contains(gaps, row => row.Missing.Contains("birth date", StringComparison.Ordinal) && row.Patients.Length > 2);
        Assert.All(gaps, row => Assert.True(row.Times >= row.Patients.Length && WardJudging.End - row.Latest <= TimeSpan.FromHours(24), row.Title));
    }

    private static int Value(IEnumerable<string> lines, string sample) =>
        int.Parse(lines.Single(line => line.StartsWith(sample + " ", StringComparison.Ordinal)).Split(' ')[^1], CultureInfo.InvariantCulture);

    private static string Text(WardResource one) => Encoding.UTF8.GetString(one.Json.Span);

    private static async Task KeepAndJudgeAsync(GivenService service, IEnumerable<string> resources)
    {
        await service.KeepAsync(new FhirArrivalReader(ShippedMaps.WithDemoRows), resources.Select(json => RaisedCountsTests.Charting(json, "1")));
        var judge = new JudgeStep(service.Ledger, new ChartedText(), service.Services.GetRequiredService<BasisInForce>(), new SetClock(WardJudging.End), TimeSpan.FromMinutes(1));
        while (await judge.StepAsync(Stop) == StepResult.DidWork)
        {
        }
    }
}
