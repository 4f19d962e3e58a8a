using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Worker.Explaining;

/// <summary>
/// Explains one recorded finding and judges its patient again from the ledger: as known at the judgement that found what the record
/// says, at the time of that judgement.
/// </summary>
public sealed class ExplainRun(ILedgerReader ledger, IChartedText texts)
{
    /// <param name="rules">The rule set to judge again by; null where it is not at hand, and then nothing is judged.</param>
    public async ValueTask<Explanation> RunAsync(FindingRecord record, RuleSet? rules, UnknownAge unknownAge, CancellationToken stop)
    {
        var content = FindingContent.Read(record.Content.Span);
        var said = SaidOf(record, content);
        var point = (await ledger.JudgedAsync(record.Patient, stop)).LastOrDefault(one => one.UpTo.Value == said.UpTo && one.BasisSha256 == said.BasisSha256);
        var history = await HistoryAsync(record, stop);
        var told = new Explanation(
            record, content, ledger.NameOf(record.Patient), said.Names, said.BasisSha256, null, null, null, Recorded(content), null, history,
            ClearedBy(record, said, rules), "", null);
        if (rules is null || point == default)
        {
            return told;
        }

        using var lease = await ledger.LoadAsync(record.Patient, TimeRange.All, point.UpTo, stop);
        var seen = await LookAsync(lease, record, content, rules, new JudgeSettings(point.AsOf, false, unknownAge), stop);
        var again = new JudgedAgain(point.UpTo.Value, new DateTimeOffset(point.AsOf, TimeSpan.Zero), Differences(record, said, rules, seen));
        told = told with { Airway = seen.Airway, Again = again };
        // What came out otherwise is told as a difference; all the rest is of what was recorded.
        return !again.IsSame ? told : told with
        {
            Finding = seen.Finding,
            Latest = seen.Latest,
            Rows = seen.NotTold is { } notTold ? About(notTold) : seen.Facts.IsEmpty ? told.Rows : await RowsAsync(seen.Facts, stop),
            ClearedBy = seen.ClearedBy is { } by ? (await RowsAsync([by], stop))[0] : null,
            Source = rules.Sources.FirstOrDefault(source => source.Id == seen.Latest?.Limit.Source)?.Title ?? "",
        };
    }

    private static Said SaidOf(FindingRecord record, FindingContent content) => content.Said is { } before
        ? new Said(before.Basis, before.Basis.BasisSha256, before.UpTo, before.Fingerprint)
        : new Said(content.Basis, record.BasisSha256, record.JudgedAt.Value, content.Fingerprint);

    // Another rule set may ask for something else.
    private static string ClearedBy(FindingRecord record, Said said, RuleSet? rules) =>
        said.Names is { } names && names.RuleSetSha256 != rules?.Sha256 ? "" : rules?.Find(record.Check)?.ClearedBy ?? "";

    private async ValueTask<Seen> LookAsync(TimelineLease lease, FindingRecord record, FindingContent content, RuleSet rules, JudgeSettings settings, CancellationToken stop)
    {
        var judge = new PatientJudge(rules, ledger);
        var made = judge.Judge(lease.View, settings);
        var own = (await ledger.FindingsAsync(record.Patient, stop)).Select(static one => one.Key).ToHashSet();
        var derived = await OwnKeys.OfAsync(made, record.Patient, own, async key => (await ledger.FindAsync(key.ToString("N"), 1, stop)) is [var found] ? found : null);
        return Look(lease, judge, derived, record, content);
    }

    private Seen Look(TimelineLease lease, PatientJudge judge, DerivedFindings derived, FindingRecord record, FindingContent content)
    {
        var timeline = lease.View;
        if (record.Kind == FindingKind.CannotTell)
        {
            var airway = AirwayOf(timeline, judge.Care, record.Latest);
            var untold = derived.CannotTell.Where(one => one.Key == record.Key).ToList();
            return new Seen(null, null, airway, [], null) { NotTold = untold.Count == 0 ? null : CannotTellPlan.Together([.. untold]) };
        }

        foreach (var finding in derived.Findings)
        {
            if (OccurrenceOf(finding, record, content) is { } latest)
            {
                return new Seen(
                    finding, latest, AirwayOf(timeline, judge.Care, latest), FactsOf(timeline, latest),
                    finding.ClearedBy is { } by ? Find(timeline, by) : null);
            }
        }

        return new Seen(null, null, AirwayOf(timeline, judge.Care, record.Latest), [], null);
    }

    private static Occurrence? OccurrenceOf(DerivedFinding finding, FindingRecord record, FindingContent content) => record.Kind == FindingKind.Spell
        ? (finding.Stands && FindingKeys.Flag(finding.Rule.Id, finding.Line, finding.Anchor, content.Shown) == record.Key ? finding.Latest : null)
        : finding.Occurrences.FirstOrDefault(occurrence => occurrence.Key == record.Key && !occurrence.IsSuperseded);

    private ExplainedAirway? AirwayOf(in Timeline timeline, Care care, long at) => AirwayOf(timeline, care, care.AirwayAt(at), at);

    // An order is held against the airway in use now, which may be younger than it.
    private ExplainedAirway? AirwayOf(in Timeline timeline, Care care, Occurrence occurrence)
    {
        for (var i = care.Airways.Length - 1; i >= 0; i--)
        {
            if (ledger.IdentityOf(care.Airways[i].Identity) == occurrence.Airway)
            {
                return AirwayOf(timeline, care, i, Math.Max(occurrence.At, care.Airways[i].From));
            }
        }

        return null;
    }

    private ExplainedAirway? AirwayOf(in Timeline timeline, Care care, int index, long at)
    {
        if (index < 0)
        {
            return null;
        }

        ref readonly var airway = ref care.Airways[index];
        return new ExplainedAirway(
            ledger.NameOf(airway.Identity), airway.Type > 0 ? Answers.Code(airway.Type) : "",
            airway.DiameterFact >= 0 ? FactWords.Of(timeline.Facts[airway.DiameterFact].Value) : "",
            UnreadDiameter.Holds(timeline, airway, at), airway.From == long.MinValue ? null : airway.From, airway.To == long.MaxValue ? null : airway.To);
    }

    private static ImmutableArray<Fact> FactsOf(in Timeline timeline, Occurrence occurrence)
    {
        var items = occurrence.Charted is { } charted ? occurrence.RestsOn.Prepend(charted) : occurrence.RestsOn;
        var facts = ImmutableArray.CreateBuilder<Fact>();
        foreach (var item in items.Distinct())
        {
            if (Find(timeline, item) is { } fact)
            {
                facts.Add(fact);
            }
        }

        return facts.ToImmutable();
    }

    private static Fact? Find(in Timeline timeline, EvidenceItem item)
    {
        foreach (ref readonly var fact in timeline.Facts)
        {
            if (fact.Id == item.Fact && fact.Row == item.Row)
            {
                return fact;
            }
        }

        return null;
    }

    private async ValueTask<ImmutableArray<ExplainedRow>> RowsAsync(ImmutableArray<Fact> facts, CancellationToken stop)
    {
        var rows = ImmutableArray.CreateBuilder<ExplainedRow>(facts.Length);
        foreach (var fact in facts)
        {
            var arrival = await ledger.ArrivalAsync(fact.Id.Arrival, stop);
            rows.Add(new ExplainedRow(
                ledger.NameOf(fact.Row), arrival?.Version ?? "", fact.Concept.Code, FactWords.Of(fact.Value),
                arrival is null ? "" : texts.ValueOf(arrival.Body.Span, fact.Id.Ordinal) ?? "",
                fact.EffectiveFrom == long.MinValue ? null : fact.EffectiveFrom, arrival?.KnownAt)
            {
                Place = arrival is null ? null : texts.PlaceOf(arrival.Body.Span, fact.Id.Ordinal),
            });
        }

        return rows.ToImmutable();
    }

    // What could not be judged has no value: its rows are named alone.
    private ImmutableArray<ExplainedRow> About(DerivedCannotTell notTold) => [.. notTold.About.Select(row => new ExplainedRow(ledger.NameOf(row), "", "", "", "", null, null))];

    // Where it does not come out again, what the record itself names.
    private static ImmutableArray<ExplainedRow> Recorded(FindingContent content)
    {
        var evidence = content.Issue?.Evidence ?? content.Flag?.Evidence ?? [];
        return [.. evidence.Select(item =>
        {
            var parts = item.Reference.Split("/_history/");
            return new ExplainedRow(parts[0], parts.Length > 1 ? parts[1] : "", "", "", item.Charted, null, null);
        })];
    }

    private static ImmutableArray<string> Differences(FindingRecord record, Said said, RuleSet rules, Seen seen)
    {
        var found = ImmutableArray.CreateBuilder<string>();
        if (said.Names is { } basis && basis.RuleSetSha256 != rules.Sha256)
        {
            found.Add($"rule set: recorded {basis.RuleSet} {basis.RuleSetVersion}, judged again by {rules.Name} {rules.Version}");
        }

        if (record.Kind == FindingKind.CannotTell)
        {
            return [.. found, .. NotToldDifferences(said.Fingerprint, seen.NotTold)];
        }

        var isGone = said.Fingerprint is Fingerprints.Withdrawn or Fingerprints.Retired or Fingerprints.OrderEnded;
        if (seen.Finding is null)
        {
            if (!isGone)
            {
                found.Add("verdict: recorded a breach, now none");
            }
        }
        else if (isGone)
        {
            found.Add("verdict: recorded as taken back, now a breach");
        }
        else
        {
            var now = record.Kind == FindingKind.Spell ? Fingerprints.Of(seen.Finding) : Fingerprints.Of(seen.Latest!);
            found.AddRange(Fingerprints.Differences(record.Kind, said.Fingerprint, now));
        }

        return found.ToImmutable();
    }

    private static IReadOnlyList<string> NotToldDifferences(string recorded, DerivedCannotTell? now) => (recorded == Fingerprints.Told, now) switch
    {
        (true, null) => [],
        (true, _) => ["verdict: recorded as told, now it cannot be told"],
        (false, null) => ["verdict: recorded that it could not be told, now it can"],
        _ => Fingerprints.Differences(FindingKind.CannotTell, recorded, Fingerprints.Of(now)),
    };

    private async ValueTask<ImmutableArray<ExplainedEvent>> HistoryAsync(FindingRecord record, CancellationToken stop)
    {
        var entries = await ledger.AuditOfAsync(record.Key.ToString(), stop);
        var (events, basis) = (ImmutableArray.CreateBuilder<ExplainedEvent>(entries.Count), "");
        foreach (var entry in entries)
        {
            var by = AuditWords.BasisOf(entry);
            events.Add(new ExplainedEvent(entry.Number, entry.At, AuditWords.Of(entry, isOfAnotherPolicy: by.Length > 0 && basis.Length > 0 && by != basis)));
            basis = by.Length > 0 ? by : basis;
        }

        return events.MoveToImmutable();
    }

    // The judgement whose words the record holds.
    private sealed record Said(MessageBasis? Names, string BasisSha256, long UpTo, string Fingerprint);

    private sealed record Seen(DerivedFinding? Finding, Occurrence? Latest, ExplainedAirway? Airway, ImmutableArray<Fact> Facts, Fact? ClearedBy)
    {
        /// <summary>For what could not be told: as judged again; null where it is told now.</summary>
        public DerivedCannotTell? NotTold { get; init; }
    }
}
