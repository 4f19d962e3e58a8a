using System.Collections.Immutable;

namespace AirwayGuard.TestKit.EngineMutants;

/// <summary>Every mutant of the judging, area by area.</summary>
public static class MutantList
{
    public static ImmutableArray<EngineMutant> All { get; } =
        [.. LimitMutants.All, .. JudgeMutants.All, .. VacuumMutants.All, .. AirwayMutants.All, .. OxygenMutants.All, .. PassMutants.All, .. OrderMutants.All, .. DueMutants.All, .. FindingMutants.All];
}
