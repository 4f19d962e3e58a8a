using System.Collections.Immutable;

namespace AirwayGuard.TestKit.EngineMutants;

/// <summary>Mutants of what ends a finding, and of what is shown.</summary>
internal static class FindingMutants
{
    public static ImmutableArray<EngineMutant> All { get; } =
    [
        new("same-instant-clears", "Findings/SpellBuilder.cs",
            "(verdict.Subject.From <= since ||",
            "(verdict.Subject.From < since ||",
            "A safe reading of the same instant ends the breach beside it."),
        new("weak-clears-all", "Findings/SpellBuilder.cs",
            "verdict.Measured.Clearing == ClearingStrength.Weak && !allWeak",
            "verdict.Measured.Clearing == ClearingStrength.Weak && allWeak",
            "A reading of unknown method ends what an occluded one found."),
        new("withheld-without-another", "Findings/OccurrenceBuilder.cs",
            "measured.Withheld && rule.WithheldBy.Length > 0",
            "measured.Withheld || rule.WithheldBy.Length > 0",
            "A breach is hidden since another check could have said it."),
        new("one-withheld-hides-all", "Findings/Derived.cs",
            "Occurrences.All(occurrence => occurrence.Withheld);",
            "Occurrences.Any(occurrence => occurrence.Withheld);",
            "One occurrence that another check says hides those that nobody says."),
        new("episode-end-at-once", "Findings/LineEnds.cs",
            "line.Kind == LineKind.Episode && !settings.WaitsAreOver ? Care.SaturatingAdd(end, CareTimes.EpisodeGap) : end;",
            "end;",
            "What stands on an episode ends with each change of tube."),
    ];
}
