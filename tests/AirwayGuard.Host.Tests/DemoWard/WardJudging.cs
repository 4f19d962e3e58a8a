using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Host.DemoWard;
using AirwayGuard.Rules;
using AirwayGuard.Worker.Checking;
using Xunit;

namespace AirwayGuard.Host.Tests.DemoWard;

/// <summary>Judges resources of the ward as <c>check</c> does, in this process.</summary>
internal static class WardJudging
{
    public static readonly DateTimeOffset End = new(2026, 3, 12, 13, 20, 0, TimeSpan.FromHours(1));

    /// <param name="updates">Second versions, known an hour after the rest.</param>
    public static async Task<CheckReport> Judge(IEnumerable<WardResource> resources, IEnumerable<WardResource>? updates = null, CheckSettings? settings = null)
    {
        var inputs = resources.Select(resource => Input(resource, End)).Concat((updates ?? []).Select(resource => Input(resource, End.AddHours(1)))).ToList();
        var map = ShippedMaps.WithDemoRows;
        var run = new CheckRun(
            ShippedRuleSets.Load("strict-ranges").RuleSet!, new FhirArrivalReader(map), new OrderWordsReader(map), new ChartedText(), new MemoryCheckChart());
        return await run.RunAsync(inputs, [], unreadable: false, settings ?? CheckSettings.Default, TestContext.Current.CancellationToken);
    }

    /// <summary>Findings as <c>check patient state count</c>, in the order of their words.</summary>
    public static IEnumerable<string> Findings(CheckReport report) => report.Findings
        .Select(one => FormattableString.Invariant($"{one.Finding.Rule.Id} {one.Patient} {one.Finding.State} {one.Finding.Occurrences.Length}"))
        .Order(StringComparer.Ordinal);

    private static CheckInput Input(WardResource resource, DateTimeOffset knownAt) => new(
        new Arrival(ArrivalKind.Resource, "demo-ward", resource.Type, resource.Id, Version: null, knownAt, KnownBy.Import, resource.Json),
        $"{resource.Type}/{resource.Id}");
}
