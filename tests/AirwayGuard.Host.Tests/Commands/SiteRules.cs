namespace AirwayGuard.Host.Tests.Commands;

/// <summary>A site's rule set of one check, a vacuum ceiling for all ages.</summary>
internal static class SiteRules
{
    /// <param name="ceiling">In mm[Hg].</param>
    public static string With(string ceiling) =>
        $$"""
        schema: 1
        name: lindenhof
        version: 1.0.0
        title: Lindenhof
        sources:
          ward-7: "Ward 7 policy"
        rules:
          - id: vacuum-above-ceiling
            judges: [setting]
            measure: vacuum-pressure
            above:
              all: { limit: "{{ceiling}} mm[Hg]", source: ward-7, status: cited }
            severity: high
            stands: regulator
            mode: live
            say: "Charted vacuum {value} is above {limit}."
            do: "The policy asks for at most {limit}; local policy decides."
            clears: a later reading within the limit
        """;
}
