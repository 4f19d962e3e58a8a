namespace AirwayGuard.Benchmarks.EngineMutants;

/// <summary>Some tests of one project; what most often notices a change first is run first.</summary>
/// <param name="Select">Options of the test program.</param>
internal sealed record TestStage(string Project, params string[] Select)
{
    private const string Cases = "AirwayGuard.Rules.Tests.Cases.ShippedCasesTests.Every_shipped_case_holds", Judging = "AirwayGuard.Core.Tests.Judging";

    /// <summary>Each test of the two projects is in exactly one.</summary>
    public static IReadOnlyList<TestStage> All { get; } =
    [
        new("AirwayGuard.Rules.Tests", "-method", Cases),
        new("AirwayGuard.Core.Tests", "-namespace", Judging),
        new("AirwayGuard.Core.Tests", "-namespace-", Judging),
        new("AirwayGuard.Rules.Tests", "-method-", Cases),
    ];
}
