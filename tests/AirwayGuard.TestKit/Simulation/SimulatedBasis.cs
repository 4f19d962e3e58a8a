using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Fhir.Intake;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Rules, map and questions of every simulated service; the same objects for all runs, since they never change.</summary>
internal static class SimulatedBasis
{
    private static readonly string[] Asked = ["Patient", "Encounter", "ServiceRequest", "Flag", "DetectedIssue"];
    private static readonly string[] Codes = ["suction-pass", "vacuum-pressure", "airway-type", "regulator-mode", "preoxygenation"];

    public static readonly CodeMap Map = CodeMap.Load(ShippedMaps.Standard).Map ?? throw new InvalidOperationException("The shipped map does not load.");

    private static readonly RuleSet Rules = FewChecks.Of(
        RuleSetLibrary.Resolve(ShippedRuleSets.Default).RuleSet ?? throw new InvalidOperationException("The shipped rule set does not load."));

    public static readonly IReadOnlyList<SweepQuery> Queries =
    [
        .. SweepQueries.For(Map).Where(query => Asked.Contains(query.Type, StringComparer.Ordinal) && query.Type is not ("Flag" or "DetectedIssue")),
        new SweepQuery("Observation-1", "Observation", [.. Codes.Select(code => new SweepCode(CodeSystems.AirwayCare, code))]),
        .. SweepQueries.For(Map).Where(query => query.Type is "Flag" or "DetectedIssue"),
        .. SweepQueries.Deletions.Where(query => query.Type == "Observation"),
    ];

    /// <param name="live">Whether anything leaves the service.</param>
    public static ServiceBasis Of(bool live) => new(
        Rules, live, UnknownAge.CannotTell, TimeSpan.FromHours(2),
        new MessageBasis(Rules.Name, Rules.Version, Rules.Sha256, new FhirArrivalReader(Map).Version, "0", "1"));
}
