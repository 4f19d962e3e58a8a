using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Findings;

/// <summary>
/// Tells whether what a recorded occurrence rests on is still charted as it was: a finding that another policy no longer makes was
/// still true when it was made, one whose charting was taken back was not.
/// </summary>
/// <param name="otherPolicy">How far the patient was last judged, where that was by another rule set, site's words or settings; else null.</param>
/// <param name="lease">Must be valid while this is asked.</param>
public sealed class FactsOnFile(JudgedPoint? otherPolicy, TimelineLease lease, IEntityNames names)
{
    /// <summary>Whether the patient was last judged by another policy.</summary>
    public bool PolicyChanged => otherPolicy is not null;

    private readonly Lazy<HashSet<(Entity Row, FactId Fact)>> _facts = new(() => Facts(lease));
    private readonly Lazy<HashSet<string>> _rows = new(() => Rows(lease, names));

    /// <summary>Whether it is the policy that no longer makes this occurrence, and not the charting.</summary>
    public bool IsOfAnotherPolicy(FindingContent occurrence) =>
        (PolicyChanged || occurrence.OfAnotherPolicy) && Fingerprints.RestsOn(occurrence.Fingerprint).All(_facts.Value.Contains)
        && (occurrence.Issue?.Implicated ?? []).All(_rows.Value.Contains);

    /// <summary>
    /// Whether another policy had everything an occurrence rests on, and all the time it could have waited for more, and found nothing:
    /// what was done then kept to what was asked for then.
    /// </summary>
    public bool WasJudgedByAnotherPolicy(Occurrence occurrence, Rule rule) =>
        otherPolicy is { } last && !occurrence.Evidence.IsEmpty && occurrence.RestsOn.All(item => item.Fact.Arrival <= last.UpTo)
        && occurrence.At + Waited(rule).Ticks < last.AsOf;

    private static TimeSpan Waited(Rule rule) => (rule.Waits > Rule.DefaultWait ? rule.Waits : Rule.DefaultWait) + rule.Holds;

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
}
