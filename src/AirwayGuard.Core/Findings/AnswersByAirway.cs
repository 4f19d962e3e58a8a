namespace AirwayGuard.Core.Findings;

/// <summary>
/// An order that is held against another airway keeps the key of its occurrence. A mitigation that a person gave while it was found against the airway
/// before answered that: it closes nothing of the airway in use now.
/// </summary>
internal sealed class AnswersByAirway
{
    private readonly PersonsActs _acts;
    private readonly PersonsActs? _withoutEarlier;
    private readonly HashSet<Guid> _answered;

    private AnswersByAirway(PersonsActs acts, HashSet<Guid> answered)
    {
        (_acts, _answered) = (acts, answered);
        _withoutEarlier = answered.Count == 0 ? null : acts with { MitigatedIssues = acts.MitigatedIssues.Where(key => !answered.Contains(key)).ToHashSet() };
    }

    public static AnswersByAirway Of(DerivedFindings derived, Dictionary<Guid, FindingRecord> records, PersonsActs acts)
    {
        var answered = new HashSet<Guid>();
        foreach (var finding in derived.Findings)
        {
            foreach (var occurrence in finding.Occurrences)
            {
                if (occurrence.IsSuperseded && acts.MitigatedIssues.Contains(occurrence.Key) && !acts.ClosedFlags.Contains(finding.Flag)
                    && records.TryGetValue(finding.Flag, out var flag) && flag.State == FindingState.ClosedByPerson)
                {
                    answered.Add(occurrence.Key);
                }
            }
        }

        return new AnswersByAirway(acts, answered);
    }

    /// <summary>What persons did that bears on a finding.</summary>
    public PersonsActs For(DerivedFinding finding) =>
        _withoutEarlier is not null && finding.Occurrences.Any(occurrence => !occurrence.IsSuperseded && _answered.Contains(occurrence.Key)) ? _withoutEarlier : _acts;
}
