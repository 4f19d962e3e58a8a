using AirwayGuard.Core.Judging;

namespace AirwayGuard.Core.Findings;

/// <summary>
/// Compares what the facts make with what is recorded and says what is to change. Pure, so that judging row by row ends where
/// judging the whole stay at once does.
/// </summary>
public static class Reconciler
{
    public static IReadOnlyList<FindingPlanItem> Plan(
        IReadOnlyList<FindingRecord> prior, DerivedFindings derived, FindingPolicy policy, PersonsActs acts, FactsOnFile file)
    {
        var items = new List<FindingPlanItem>();
        var records = prior.ToDictionary(record => record.Key);
        var seen = new HashSet<Guid>();
        var answers = AnswersByAirway.Of(derived, records, acts);
        foreach (var finding in derived.Findings)
        {
            foreach (var occurrence in finding.Occurrences)
            {
                seen.Add(occurrence.Key);
                if (!occurrence.IsSuperseded)
                {
                    PlanOccurrence(finding, occurrence, records, policy, answers.For(finding), file, items);
                }
            }

            if (finding.Stands)
            {
                PlanSpell(finding, derived.OthersKeys, records, policy, answers.For(finding), file, items, seen);
            }
        }

        CannotTellPlan.Add(derived.CannotTell, records, items);
        var ended = EndedWithTheirOrders(prior, derived, seen);
        var ofAnotherPolicy = OfAnotherPolicy(prior, seen, file);
        foreach (var record in prior)
        {
            if (!seen.Contains(record.Key) && record.State != FindingState.Withdrawn && record.Kind != FindingKind.CannotTell)
            {
                PlanVanished(record, policy.Rules, ended.Contains(record.Key), ofAnotherPolicy.Contains(record.Key), items);
            }
        }

        return items;
    }

    private static void PlanOccurrence(
        DerivedFinding finding, Occurrence occurrence, Dictionary<Guid, FindingRecord> records, FindingPolicy policy, PersonsActs acts, FactsOnFile file, List<FindingPlanItem> items)
    {
        var fingerprint = Fingerprints.Of(occurrence);
        records.TryGetValue(occurrence.Key, out var record);
        var step = record is null ? FindingStep.Raise
            : record.State is FindingState.Open or FindingState.Cleared && acts.MitigatedIssues.Contains(occurrence.Key) ? FindingStep.CloseByPerson
            : record.State == FindingState.Withdrawn ? FindingStep.Amend
            : FindingContent.Read(record.Content.Span).Fingerprint != fingerprint ? (IsHistory(record, finding, file) ? FindingStep.Follow : FindingStep.Amend)
            : IsNowShown(record, finding, policy) || SaysWhatIsNoLongerSo(record, occurrence) ? FindingStep.Amend
            : !IsCurrent(record, finding) ? FindingStep.Follow
            : (FindingStep?)null;
        if (step is { } what)
        {
            items.Add(new FindingPlanItem(what, FindingKind.Occurrence, occurrence.Key, finding, occurrence, record, fingerprint, occurrence.Number, null));
        }
    }

    // An estimate is no part of what is found: that one can be made now, or comes out a little otherwise, amends nothing. One that was written
    // is taken back where it can no longer be made, or where what it was and what it is now do not meet.
    private static bool SaysWhatIsNoLongerSo(FindingRecord record, Occurrence occurrence) =>
        record.State == FindingState.Open && FindingContent.Read(record.Content.Span) is { Sent: true, Issue.Estimate: { } said } && occurrence.Estimate?.IsApartFrom(said) != false;

    // A person's closing of the occurrence itself stays; else it is what its finding is.
    private static bool IsCurrent(FindingRecord record, DerivedFinding finding) =>
        record.Parent == finding.Flag && !FindingContent.Read(record.Content.Span).OfAnotherPolicy && (record.State == finding.State || record.State == FindingState.ClosedByPerson);

    // What was over when another policy came into force keeps the words and the limit of the one it was found by.
    private static bool IsHistory(FindingRecord record, DerivedFinding finding, FactsOnFile file) =>
        file.PolicyChanged && record.State == FindingState.Cleared && finding.State == FindingState.Cleared;

    // What stands when its rule, or the service, begins to speak is said then: it would wait for its next change otherwise.
    private static bool IsNowShown(FindingRecord record, DerivedFinding finding, FindingPolicy policy) =>
        finding.Stands && finding.State == FindingState.Open && record.State == FindingState.Open && policy.Sends(finding.Rule)
        && FindingContent.Read(record.Content.Span).Withheld == Withholding.Silent;

    // A Flag that was shown ends when its check is silenced, though nothing about the patient has changed.
    private static bool IsNowSilent(FindingRecord record, DerivedFinding finding, FindingPolicy policy) =>
        finding.State == FindingState.Open && record.State == FindingState.Open && policy.Live && !policy.Sends(finding.Rule)
        && FindingContent.Read(record.Content.Span).Sent;

    private static void PlanSpell(
        DerivedFinding finding, IReadOnlySet<Guid> others, Dictionary<Guid, FindingRecord> records, FindingPolicy policy, PersonsActs acts, FactsOnFile file, List<FindingPlanItem> items, HashSet<Guid> seen)
    {
        var (key, shown, record) = (finding.Flag, finding.Number, records.GetValueOrDefault(finding.Flag));
        seen.Add(key);
        Guid? replaces = null;
        while (record is not null && IsClosed(record, shown, finding, records, acts))
        {
            if (record.State != FindingState.ClosedByPerson)
            {
                items.Add(new FindingPlanItem(FindingStep.CloseByPerson, FindingKind.Spell, key, finding, null, record, Fingerprints.Of(finding), shown, replaces));
            }

            if (!MustBeShownAgain(record, finding))
            {
                return;
            }

            (replaces, shown) = (key, OwnKeys.Next(shown + 1, KeyOf, others));
            key = KeyOf(shown);
            record = records.GetValueOrDefault(key);
            seen.Add(key);
        }

        var fingerprint = Fingerprints.Of(finding);
        if (record is not null && FindingContent.Read(record.Content.Span).Fingerprint == fingerprint && !IsNowShown(record, finding, policy) && !IsNowSilent(record, finding, policy))
        {
            return;
        }

        var step = record is not null && IsHistory(record, finding, file) ? FindingStep.Follow
            : finding.State == FindingState.Cleared ? FindingStep.Clear : record is null ? FindingStep.Raise : FindingStep.Amend;
        items.Add(new FindingPlanItem(step, FindingKind.Spell, key, finding, null, record, fingerprint, shown, replaces));

        Guid KeyOf(int number) => FindingKeys.Flag(finding.Rule.Id, finding.Line, finding.Anchor, number);
    }

    // A person's closing counts once: what we ended ourselves is no closing by a person, and a mitigation that closed the Flag
    // before this one does not close this one too. Where a person closed the Flag and what it held comes back, also after we had
    // ended it in between, the Flag stays closed whichever of the two became known first. Where all that was answered has been
    // taken back, the answer closes nothing any more, again whichever became known first.
    private static bool IsClosed(FindingRecord record, int shown, DerivedFinding finding, Dictionary<Guid, FindingRecord> records, PersonsActs acts) =>
        (record.State == FindingState.ClosedByPerson && (shown > finding.Number || acts.ClosedFlags.Contains(record.Key) || finding.Occurrences.Any(occurrence => acts.MitigatedIssues.Contains(occurrence.Key))))
        || ((record.State == FindingState.Open || finding.State == FindingState.Open)
            && (acts.ClosedFlags.Contains(record.Key)
                || finding.Occurrences.Any(occurrence => acts.MitigatedIssues.Contains(occurrence.Key) && (shown == finding.Number || !WasClosed(records, occurrence.Key)))));

    private static bool WasClosed(Dictionary<Guid, FindingRecord> records, Guid key) =>
        records.TryGetValue(key, out var record) && record.State == FindingState.ClosedByPerson;

    // Within a closed spell only a higher severity or another tube is shown again, as a new Flag that names the closed one.
    private static bool MustBeShownAgain(FindingRecord closed, DerivedFinding finding)
    {
        var content = FindingContent.Read(closed.Content.Span);
        return finding.State == FindingState.Open && content.Flag is { } flag && (Highest(finding) > flag.Severity || IsAnotherTube(content.Airway, finding.Latest.Airway));
    }

    private static bool IsAnotherTube(string closed, string now) => closed.Length > 0 && now.Length > 0 && closed != now;

    /// <summary>The highest severity of a finding's occurrences.</summary>
    public static Severity Highest(DerivedFinding finding) => finding.Occurrences.Max(occurrence => occurrence.Severity);

    // An order that is changed, held or ended was what it was until then: what was said of it ends and is not struck out. Only one
    // entered in error, or whose row is gone, takes back what rested on it.
    private static HashSet<Guid> EndedWithTheirOrders(IReadOnlyList<FindingRecord> prior, DerivedFindings derived, HashSet<Guid> seen)
    {
        var ended = new HashSet<Guid>();
        foreach (var record in prior)
        {
            if (record.Kind != FindingKind.Occurrence || seen.Contains(record.Key) || record.State == FindingState.Withdrawn)
            {
                continue;
            }

            var fingerprint = FindingContent.Read(record.Content.Span).Fingerprint;
            if (fingerprint == Fingerprints.OrderEnded || derived.Orders.Any(order => IsNewer(order, record, fingerprint)))
            {
                ended.Add(record.Key);
                ended.Add(record.Parent);
            }
        }

        return WithSpellsBefore(ended, prior);
    }

    // What a stricter policy found was found: a looser one ends it and does not strike it out.
    private static HashSet<Guid> OfAnotherPolicy(IReadOnlyList<FindingRecord> prior, HashSet<Guid> seen, FactsOnFile file)
    {
        var found = new HashSet<Guid>();
        foreach (var record in prior)
        {
            if (record.Kind == FindingKind.Occurrence && !seen.Contains(record.Key) && record.State != FindingState.Withdrawn
                && file.IsOfAnotherPolicy(FindingContent.Read(record.Content.Span)))
            {
                found.Add(record.Key);
                found.Add(record.Parent);
            }
        }

        return WithSpellsBefore(found, prior);
    }

    // Of an order that was held against several airways the spell on each names its occurrence, which is now part of the latest.
    private static HashSet<Guid> WithSpellsBefore(HashSet<Guid> keys, IReadOnlyList<FindingRecord> prior)
    {
        var spells = keys.Count == 0 ? [] : prior.Where(record => record.Kind == FindingKind.Spell && !keys.Contains(record.Key)
            && Fingerprints.OccurrencesOf(FindingContent.Read(record.Content.Span).Fingerprint).Any(keys.Contains)).Select(record => record.Key).ToList();
        keys.UnionWith(spells);
        return keys;
    }

    // Where nothing was read of an order its finding rests on no row, and is known by its name.
    private static bool IsNewer(StandingOrder order, FindingRecord record, string fingerprint) =>
        Fingerprints.RestsOnOlder(fingerprint, order.Row, order.Since)
        || (order.Since > record.JudgedAt && record.Key == FindingKeys.Issue(record.Check, order.Identity, FindingContent.Read(record.Content.Span).Shown));

    private static void PlanVanished(FindingRecord record, RuleSet rules, bool endedWithOrder, bool ofAnotherPolicy, List<FindingPlanItem> items)
    {
        var inForce = rules.Find(record.Check) is not null;
        if (inForce && endedWithOrder)
        {
            if (record.State == FindingState.Open)
            {
                items.Add(new FindingPlanItem(FindingStep.Clear, record.Kind, record.Key, null, null, record, Fingerprints.OrderEnded, 1, null));
            }
        }
        else if (inForce && ofAnotherPolicy)
        {
            var content = FindingContent.Read(record.Content.Span);
            if (!content.OfAnotherPolicy)
            {
                items.Add(Retired(record, content));
            }
        }
        else if (inForce)
        {
            items.Add(new FindingPlanItem(FindingStep.Withdraw, record.Kind, record.Key, null, null, record, Fingerprints.Withdrawn, 1, null));
        }
        else if (record.State == FindingState.Open)
        {
            items.Add(Retired(record, FindingContent.Read(record.Content.Span)));
        }
    }

    // An occurrence keeps its fingerprint: where its rule comes back, it says what it said.
    private static FindingPlanItem Retired(FindingRecord record, FindingContent content) =>
        new(FindingStep.Retire, record.Kind, record.Key, null, null, record, record.Kind == FindingKind.Spell ? Fingerprints.Retired : content.Fingerprint, 1, null);
}
