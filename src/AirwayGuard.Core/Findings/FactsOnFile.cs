using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Findings;

/// <summary>
/// Tells whether what a recorded occurrence rests on is still charted as it was: a finding that another policy no longer makes was
/// still true when it was made, one whose charting was taken back was not.
/// </summary>
/// <param name="policyChanged">Whether the patient was last judged by another rule set, site's words or settings.</param>
/// <param name="lease">Must be valid while this is asked.</param>
public sealed class FactsOnFile(bool policyChanged, TimelineLease lease, IEntityNames names)
{
    /// <summary>Whether the patient was last judged by another policy.</summary>
    public bool PolicyChanged => policyChanged;

    private readonly Lazy<HashSet<(Entity Row, FactId Fact)>> _facts = new(() => Facts(lease));
    private readonly Lazy<HashSet<string>> _rows = new(() => Rows(lease, names));

    /// <summary>Nothing recorded was ever made by another policy.</summary>
    public static readonly FactsOnFile None = new(false, new TimelineLease(default, [], 0, new int[Concepts.Count + 1], [], 0, default, false), new NoNames());

    /// <summary>Whether it is the policy that no longer makes this occurrence, and not the charting.</summary>
    public bool IsOfAnotherPolicy(FindingContent occurrence) =>
        (policyChanged || occurrence.OfAnotherPolicy) && Fingerprints.RestsOn(occurrence.Fingerprint).All(_facts.Value.Contains)
        && (occurrence.Issue?.Implicated ?? []).All(_rows.Value.Contains);

    private static HashSet<(Entity Row, FactId Fact)> Facts(TimelineLease lease)
    {
        var found = new HashSet<(Entity, FactId)>();
        foreach (ref readonly var fact in lease.View.Facts)
        {
            found.Add((fact.Row, fact.Id));
        }

        return found;
    }

    private static HashSet<string> Rows(TimelineLease lease, IEntityNames names)
    {
        var rows = new HashSet<Entity>();
        foreach (ref readonly var fact in lease.View.Facts)
        {
            rows.Add(fact.Row);
        }

        return [.. rows.Select(names.NameOf)];
    }

    private sealed class NoNames : IEntityNames
    {
        public string NameOf(Entity entity) => "";

        public string IdentityOf(Entity entity) => "";
    }
}
