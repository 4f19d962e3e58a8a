using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Judging;

/// <summary>Builds what is to stand on the server from a planned change.</summary>
/// <param name="records">What is recorded so far, with what this judgement has changed already: the breaches of a spell before the spell.</param>
internal sealed class MessageBuilder(ILedger ledger, KnownArrivals known, ServiceBasis basis, DateTimeOffset asOf, DateTimeOffset? firstSweepAt, BasisSince since, IReadOnlyDictionary<Guid, FindingRecord> records)
{
    public async ValueTask<IssueMessage> IssueAsync(FindingPlanItem item, IssueMessage? before, CancellationToken stop)
    {
        if (item.Finding is null && item.Step == FindingStep.Clear)
        {
            return before! with { Basis = basis.Names };
        }

        if (item.Finding is null)
        {
            return before! with { Status = IssueStatus.EnteredInError, Reason = "What this rested on was corrected or taken back.", Basis = basis.Names };
        }

        var (finding, occurrence) = (item.Finding, item.Occurrence!);
        var eventAt = new DateTimeOffset(occurrence.At, TimeSpan.Zero);
        var identified = before?.IdentifiedAt ?? await CompletedAtAsync([.. occurrence.RestsOn], stop);
        return new IssueMessage(
            item.Key, finding.Rule.Id, before is null ? IssueStatus.Final : IssueStatus.Amended, occurrence.Severity, CheckTitles.Of(finding.Rule.Id),
            Wording.Say(finding.Rule, occurrence), Wording.Do(finding.Rule, occurrence), PatientOf(finding),
            [.. occurrence.Anchors.Select(anchor => ledger.NameOf(anchor.Row))],
            await EvidenceAsync([.. occurrence.RestsOn], stop), identified, eventAt,
            before?.Late ?? IsLate(identified, occurrence), Wording.Band(occurrence.Band), [LimitSource.Of(basis.Rules, occurrence.Limit)],
            before is null ? "" : before.Basis.BasisSha256 != basis.Names.BasisSha256 ? "Judged again by the policy now in force." : "Judged again on changed charting.",
            "live", basis.Names)
        {
            Estimate = occurrence.Estimate,
        };
    }

    /// <returns>Null where a Flag has nobody and nowhere to stand on.</returns>
    public async ValueTask<FlagMessage?> FlagAsync(FindingPlanItem item, FlagMessage? before, CancellationToken stop)
    {
        if (item.Finding is null)
        {
            var (status, reason) = item.Step switch
            {
                FindingStep.Retire => (FlagStatus.Inactive, "By the policy now in force this is no finding."),
                FindingStep.Clear => (FlagStatus.Inactive, "The order was changed, held or ended."),
                _ => (FlagStatus.EnteredInError, "What this rested on was corrected or taken back."),
            };
            return before is null ? null : before with { Status = status, PeriodEnd = asOf, Reason = reason, Basis = basis.Names };
        }

        var finding = item.Finding;
        var subject = PatientOf(finding) ?? PlaceOf(finding);
        if (subject is null)
        {
            return null;
        }

        var latest = finding.Latest;
        var start = before?.PeriodStart ?? await CompletedAtAsync([.. finding.First.RestsOn], stop);
        var isOpen = finding.State == FindingState.Open;
        return new FlagMessage(
            item.Key, finding.Rule.Id, isOpen ? FlagStatus.Active : FlagStatus.Inactive, Reconciler.Highest(finding), Wording.Say(finding.Rule, latest),
            subject, latest.Encounter.IsNone ? null : ledger.NameOf(latest.Encounter), start, isOpen ? null : await EndAsync(finding, start, stop),
            [.. finding.Occurrences.Where(occurrence => !occurrence.Withheld).Select(occurrence => occurrence.Key)], item.Replaces,
            isOpen ? "" : finding.LineEnded ? "Ended with the airway or the stay." : "Cleared by a later charting.",
            await EvidenceAsync([.. latest.RestsOn, .. Ending(finding)], stop), "live", basis.Names)
        {
            // As it was said of that breach when it was first found: however late it is judged again, that stays.
            LateBreachAt = records.GetValueOrDefault(latest.Key) is { Late: true } ? new DateTimeOffset(latest.At, TimeSpan.Zero) : null,
        };
    }

    // What was known before the basis in force became a breach by that basis: it is found now and happened then.
    private async ValueTask<DateTimeOffset> CompletedAtAsync(ImmutableArray<EvidenceItem> restsOn, CancellationToken stop)
    {
        var at = await known.KnownAtAsync(restsOn, asOf, stop);
        return at < since.At && !restsOn.IsEmpty && restsOn.All(item => item.Fact.Arrival < since.Position) ? since.At : at;
    }

    // What ended it is one of the versions its present state rests on.
    private static IEnumerable<EvidenceItem> Ending(DerivedFinding finding) => finding.ClearedBy is { } by ? [by] : [];

    // A flag ends when its end became known, and never before it began.
    private async ValueTask<DateTimeOffset> EndAsync(DerivedFinding finding, DateTimeOffset start, CancellationToken stop)
    {
        var end = finding.ClearedBy is { } by ? await known.KnownAtAsync([by], asOf, stop) : asOf;
        return end < start ? start : end;
    }

    private async ValueTask<ImmutableArray<MessageEvidence>> EvidenceAsync(ImmutableArray<EvidenceItem> items, CancellationToken stop)
    {
        var evidence = ImmutableArray.CreateBuilder<MessageEvidence>(items.Length);
        foreach (var item in items)
        {
            evidence.Add(await known.EvidenceAsync(item, stop));
        }

        return evidence.ToImmutable();
    }

    // By when it is judged, which is when anybody hears of it: after an outage that is late, though it was charted in time. What was
    // there before the service first looked is history, not late.
    private bool IsLate(DateTimeOffset identified, Occurrence occurrence) =>
        firstSweepAt is { } first && identified > first && Timeliness.IsLate(occurrence, identified > asOf ? identified : asOf, basis.LateAfter);

    private string? PatientOf(DerivedFinding finding) => finding.Patient.Kind == EntityKind.Patient ? ledger.NameOf(finding.Patient) : null;

    private string? PlaceOf(DerivedFinding finding) => finding.Place.IsNone ? null : ledger.NameOf(finding.Place);
}
