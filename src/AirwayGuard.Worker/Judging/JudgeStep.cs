using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Places;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;

namespace AirwayGuard.Worker.Judging;

/// <summary>Claims one patient, judges the stay as known, and commits what changed: findings, outbox, due times, audit.</summary>
/// <param name="asked">Questions of the sweep that must have been asked to their end, whatever was asked before they were: a map that
/// asks for other rows leaves half a chart until these have come.</param>
public sealed partial class JudgeStep(
    ILedger ledger, IChartedText texts, BasisInForce inForce, TimeProvider clock, TimeSpan lease, ILogger<JudgeStep>? logger = null, IReadOnlyList<string>? asked = null) : IStep
{
    /// <summary>Judges by one basis for as long as it lives.</summary>
    /// <inheritdoc cref="JudgeStep"/>
    public JudgeStep(
        ILedger ledger, IChartedText texts, ServiceBasis basis, TimeProvider clock, TimeSpan lease, ILogger<JudgeStep>? logger = null, IReadOnlyList<string>? asked = null)
        : this(ledger, texts, new BasisInForce(basis), clock, lease, logger, asked)
    {
    }

    /// <summary>Tries before a patient's file is parked. Between them 10 seconds, then four times as long each time.</summary>
    public const int MostTries = 5;

    // A plan asks for one more at most: a spell shown again because another was closed. The third finds nothing to do.
    private const int MostRounds = 3;

    private static readonly TimeSpan FirstWait = TimeSpan.FromSeconds(10);

    private readonly ILogger _logger = logger ?? NullLogger<JudgeStep>.Instance;
    private readonly ClaimReturn _return = new(ledger.ReleaseAsync);
    private readonly PlacesAbove _above = new(ledger, clock);

    private bool _looked;
    private (ServiceBasis Basis, PatientJudges Judges, BasisSince Since)? _used;

    // Of the patient who is judged now, by whose place the rules speak or are silent.
    private FindingPolicy? _policy;

    public string Name => "judge";

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        // Half a chart gives findings that the other half takes back: nothing is judged before everything was asked for once.
        _looked = _looked || await LookedAsync(stop);
        if (!_looked)
        {
            return StepResult.Idle;
        }

        await AdoptAsync(inForce.Current, stop);
        await _return.GiveAsync(stop);
        var work = await ledger.ClaimAsync(WorkKind.Judge, lease, clock.GetUtcNow(), stop);
        if (work is null)
        {
            return StepResult.Idle;
        }

        try
        {
            await WorkAsync(work, stop);
        }
        catch (Exception trouble) when (DiskFull.IsMeantBy(trouble))
        {
            await _return.TakeAsync(work, stop);
            throw;
        }

        return StepResult.DidWork;
    }

    private async ValueTask AdoptAsync(ServiceBasis basis, CancellationToken stop)
    {
        if (_used is { } used && ReferenceEquals(used.Basis, basis))
        {
            return;
        }

        var since = await ledger.AdoptBasisAsync(basis.Names.BasisSha256, basis.Document, clock.GetUtcNow(), stop);
        _used = (basis, new PatientJudges(basis.Rules, basis.SignedOff, ledger), since);
    }

    private async ValueTask WorkAsync(Work work, CancellationToken stop)
    {
        if (work.Attempts > Claims.MostWithoutWord)
        {
            // Nothing was said of the tries before: what ends the process is not tried at every start.
            await FailAsync(work, "none", Claims.MostWithoutWord, stop);
            return;
        }

        try
        {
            // Only after the claim: what fell due before it must not be waited for once more.
            await ledger.DecideAsync(await DecideAsync(work, clock.GetUtcNow(), stop), stop);
        }
        // A disk without room, or a ledger that is damaged, is no fault of the patient's file.
        catch (Exception trouble) when (!DiskFull.IsMeantBy(trouble) && !LedgerFile.IsDamageMeantBy(trouble) && (trouble is not OperationCanceledException || !stop.IsCancellationRequested))
        {
            await FailAsync(work, trouble.GetType().Name, MostTries, stop);
        }
    }

    private async ValueTask<bool> LookedAsync(CancellationToken stop)
    {
        if (await ledger.CursorAsync(FirstSweep, stop) is null)
        {
            return false;
        }

        foreach (var question in asked ?? [])
        {
            if (await ledger.CursorAsync(SweepNames.CursorName(question), stop) is null)
            {
                return false;
            }
        }

        return true;
    }

    private async ValueTask FailAsync(Work work, string kind, int most, CancellationToken stop)
    {
        LogFailed(_logger, Codes.JudgingFailed.Id, work.Attempts, most, kind);
        var now = clock.GetUtcNow();
        DateTimeOffset? next = work.Attempts < most ? now + (FirstWait * Math.Pow(4, work.Attempts - 1)) : null;
        await ledger.FailAsync(new FailedJudgement(work.Patient, work.Fence, Codes.JudgingFailed.Id, now, next), stop);
    }

    [LoggerMessage(4101, LogLevel.Error, "{Code}: a patient's file could not be judged, try {Try} of {Most} ({Kind})")]
    private static partial void LogFailed(ILogger logger, string code, int @try, int most, string kind);

    private async ValueTask<Decision> DecideAsync(Work work, DateTimeOffset now, CancellationToken stop)
    {
        using var loaded = await ledger.LoadAsync(work.Patient, TimeRange.All, work.UpTo, stop);
        var prior = await ledger.FindingsAsync(work.Patient, stop);
        var records = prior.ToDictionary(static record => record.Key);
        var (basis, judges, since) = _used!.Value;
        var (rules, judge) = judges.At(await PlacesAsync(basis, loaded, work.Patient, now, stop));
        var policy = _policy = basis.PolicyOf(rules);
        var made = judge.Judge(loaded.View, new JudgeSettings(now.UtcTicks, false, basis.UnknownAge));
        var derived = await OwnKeys.OfAsync(made, work.Patient, records.Keys, key => ledger.FindingAsync(key, stop));
        var acts = await PersonsActsReader.ReadAsync(ledger, loaded, stop);
        var last = await ledger.LastJudgedAsync(work.Patient, stop);
        var file = new FactsOnFile(last?.BasisSha256 != basis.Names.BasisSha256 ? last : null, loaded, ledger);
        var first = await ledger.CursorAsync(FirstSweep, stop);
        var builder = new MessageBuilder(ledger, new KnownArrivals(ledger, texts), basis, now, first?.ServerTime, since, records);
        var (changes, outgoing, audit) = (ImmutableArray.CreateBuilder<FindingRecord>(), ImmutableArray.CreateBuilder<Outgoing>(), ImmutableArray.CreateBuilder<AuditNote>());
        // What is planned may ask for more: a spell that is new and holds what a person has answered is closed once it is there. Judging
        // the same again must change nothing.
        for (var round = 0; round < MostRounds && Reconciler.Plan([.. records.Values], derived, policy, acts, file) is { Count: > 0 } plan; round++)
        {
            // By when it happened: so a backlog is recorded and told as if it had been judged in time. A spell comes after what it holds.
            foreach (var item in plan.OrderBy(static item => item.Occurrence?.At ?? item.Finding?.Latest.At ?? item.CannotTell?.Latest ?? item.Prior!.Latest))
            {
                var (record, message) = await ApplyAsync(item, acts, file, builder, work, now, stop);
                changes.Add(record);
                records[record.Key] = record;
                if (message is not null)
                {
                    outgoing.Add(message);
                }

                // How often it could not be told is counted in the record; the trail has when that began, changed and ended.
                if (item is not { Kind: FindingKind.CannotTell, Step: FindingStep.Follow })
                {
                    audit.Add(new AuditNote("finding-" + item.Step.ToString().ToLowerInvariant(), item.Key.ToString(), Detail(item, record), default));
                }
            }
        }

        return new Decision(
            work.Patient, work.UpTo, now.UtcTicks, work.Fence, basis.Names.BasisSha256, changes.ToImmutable(), outgoing.ToImmutable(),
            [.. derived.Due.Select(due => new DueTime(due.At, due.Check)).Distinct()], audit.ToImmutable());
    }

    // Only where something is signed off for single units does it matter where somebody is.
    private async ValueTask<IReadOnlyCollection<string>> PlacesAsync(ServiceBasis basis, TimelineLease loaded, Entity patient, DateTimeOffset now, CancellationToken stop) =>
        basis.SignedOff.GoesByUnit ? await _above.OfAsync(StayPlaces.Of(loaded.View, patient, ledger, now.UtcTicks), stop) : [];

    private ServiceBasis Basis => _used!.Value.Basis;

    /// <summary>Name of the cursor that remembers when the service first looked at its server.</summary>
    public const string FirstSweep = "first-sweep";

    private async ValueTask<(FindingRecord Record, Outgoing? Message)> ApplyAsync(
        FindingPlanItem item, PersonsActs acts, FactsOnFile file, MessageBuilder builder, Work work, DateTimeOffset now, CancellationToken stop)
    {
        if (item.Kind == FindingKind.CannotTell)
        {
            return (CannotTellRecord.Of(item, work, Basis.Names), null);
        }

        var before = item.Prior is null ? null : FindingContent.Read(item.Prior.Content.Span);
        var isRetired = item.Step == FindingStep.Retire;
        if (IsOfThePolicyAlone(item, before))
        {
            // It was said, and its check is silent by now: only what was wrong about the charting is put right, and what it would say now waits.
            return (Record(item, work, before! with { Fingerprint = item.Fingerprint, Withheld = Withholding.Silent, Said = SaidBefore.Of(item, before, Basis.Names) }), null);
        }

        if (item.Step == FindingStep.Follow || (isRetired && (item.Kind == FindingKind.Occurrence || item.Prior!.State != FindingState.Open)))
        {
            // The DetectedIssue stays as it is: what was found was found.
            var kept = before! with { OfAnotherPolicy = isRetired, Fingerprint = item.Fingerprint, Said = SaidBefore.Of(item, before, Basis.Names) };
            return (Record(item, work, kept with { Issue = kept.Issue is { } said ? said with { Basis = Basis.Names } : null }), null);
        }

        var rule = item.Finding?.Rule ?? Basis.Rules.Find(item.Prior!.Check);
        var leaves = rule is null ? before?.Sent == true : _policy!.Sends(rule) || (before?.Sent == true && _policy.Live);
        var withheld = _policy!.WithholdingOf(item, before, now, file);
        var wanted = item.Step == FindingStep.CloseByPerson ? Closed(item, before!, acts, now) : await WantedAsync(item, before, builder, stop);
        var content = wanted with { Sent = withheld == Withholding.None, Withheld = withheld, OfAnotherPolicy = isRetired, Said = SaidBefore.Of(item, before, Basis.Names) };
        var record = Record(item, work, content);
        if (withheld == Withholding.SaidByAnotherCheck && before?.Sent == true)
        {
            // It was shown, and now another check says it: it is taken back like what a correction leaves without support.
            wanted = TakenBack(wanted, rule!.WithheldBy);
        }
        else if (withheld == Withholding.Silent && item.Kind == FindingKind.Spell && before?.Sent == true)
        {
            // It was shown, and a person silenced its check: a Flag that nobody follows any more would stand for ever.
            wanted = Silenced(wanted, now);
            record = Record(item, work, wanted with { Sent = false, Withheld = withheld, Said = content.Said });
        }
        else if (withheld != Withholding.None || IsPointless(item, before, content))
        {
            return (record, null);
        }

        var json = wanted.Issue is { } issue ? MessageJson.Write(issue) : wanted.Flag is { } flag ? MessageJson.Write(flag) : null;
        return (record, leaves && json is not null ? new Outgoing(item.Key, wanted.Issue is null ? MessageJson.Flag : MessageJson.Issue, work.Patient, json) { Urgency = Urgencies.Of(item, before?.Sent == true, now, Basis.LateAfter) } : null);
    }

    private bool IsOfThePolicyAlone(FindingPlanItem item, FindingContent? before) =>
        item is { Kind: FindingKind.Occurrence, Step: FindingStep.Amend, Finding: { } finding } && before?.Sent == true && !_policy!.Sends(finding.Rule)
        && Fingerprints.RestsOn(before.Fingerprint).SequenceEqual(Fingerprints.RestsOn(item.Fingerprint));

    private static async ValueTask<FindingContent> WantedAsync(FindingPlanItem item, FindingContent? before, MessageBuilder builder, CancellationToken stop) =>
        item.Kind == FindingKind.Occurrence
            ? new FindingContent(item.Fingerprint, ShownOf(item, before), "", "", false, AsFirstSaid(await builder.IssueAsync(item, before?.Issue, stop), item, before), null)
            : new FindingContent(
                item.Fingerprint, ShownOf(item, before), item.Finding?.Line ?? before?.Line ?? "", item.Finding?.Anchor ?? before?.Anchor ?? "", false, null,
                await builder.FlagAsync(item, before?.Flag, stop))
            {
                Airway = item.Finding?.Latest.Airway ?? before?.Airway ?? "",
            };

    // What the facts no longer make keeps its key.
    private static int ShownOf(FindingPlanItem item, FindingContent? before) => item.Finding is null ? before?.Shown ?? item.Shown : item.Shown;

    // What was recorded and never shown amends nothing where it is shown.
    private static IssueMessage? AsFirstSaid(IssueMessage? issue, FindingPlanItem item, FindingContent? before) =>
        issue is not null && item.Step == FindingStep.Amend && before is { Sent: false, Withheld: Withholding.Silent or Withholding.BeforePolicy } ? issue with { Status = IssueStatus.Final, Reason = "" } : issue;

    // A mitigation answers the finding, not the Flag: the Flag ends with it.
    private FindingContent Closed(FindingPlanItem item, FindingContent before, PersonsActs acts, DateTimeOffset now)
    {
        var flag = before.Flag is null || acts.ClosedFlags.Contains(item.Key)
            ? before.Flag
            : before.Flag with { Status = FlagStatus.Inactive, PeriodEnd = now, Reason = "A person acted on what was found." };
        return before with
        {
            Fingerprint = item.Fingerprint,
            Issue = before.Issue is { } issue ? issue with { Basis = Basis.Names } : null,
            Flag = flag is null ? null : flag with { Basis = Basis.Names },
        };
    }

    private static FindingContent Silenced(FindingContent content, DateTimeOffset now) => content with
    {
        Flag = content.Flag is { } flag ? flag with { Status = FlagStatus.Inactive, PeriodEnd = flag.PeriodEnd ?? now, Reason = "The check no longer speaks here: what is signed off is another." } : null,
    };

    private static FindingContent TakenBack(FindingContent content, string withheldBy)
    {
        var reason = $"{CheckTitles.Of(withheldBy)} says it already.";
        return content with
        {
            Issue = content.Issue is { } issue ? issue with { Status = IssueStatus.EnteredInError, Reason = reason } : null,
            Flag = content.Flag is { } flag ? flag with { Status = FlagStatus.EnteredInError, Reason = reason } : null,
        };
    }

    // What was never sent needs no taking back, and what a person closed is left as that person left it.
    private static bool IsPointless(FindingPlanItem item, FindingContent? before, FindingContent content) => item.Step switch
    {
        FindingStep.CloseByPerson => content.Flag?.Status == before?.Flag?.Status,
        // What was said of an order stays said; only its Flag ends.
        FindingStep.Clear when item.Kind == FindingKind.Occurrence => true,
        FindingStep.Withdraw or FindingStep.Retire or FindingStep.Clear => before?.Sent != true && content.Flag?.Status != FlagStatus.Active,
        _ => false,
    };

    private FindingRecord Record(FindingPlanItem item, Work work, FindingContent content)
    {
        var state = item.Step switch
        {
            FindingStep.Withdraw => FindingState.Withdrawn,
            FindingStep.CloseByPerson => FindingState.ClosedByPerson,
            // Changed charting does not undo a person's closing.
            FindingStep.Amend or FindingStep.Follow when item.Kind == FindingKind.Occurrence && item.Prior?.State == FindingState.ClosedByPerson => FindingState.ClosedByPerson,
            FindingStep.Retire => item.Prior!.State == FindingState.Open ? FindingState.Cleared : item.Prior.State,
            FindingStep.Clear when item.Finding is null => FindingState.Cleared,
            _ => item.Finding!.State,
        };
        var finding = item.Finding;
        var isSpell = item.Kind == FindingKind.Spell;
        return new FindingRecord(
            item.Key, item.Kind, finding?.Rule.Id ?? item.Prior!.Check, work.Patient, state,
            isSpell ? Guid.Empty : finding?.Flag ?? item.Prior!.Parent,
            isSpell ? finding?.Occurrences.Length ?? item.Prior!.Count : 1,
            isSpell ? finding?.First.At ?? item.Prior!.First : item.Occurrence?.At ?? item.Prior!.First,
            isSpell ? finding?.Latest.At ?? item.Prior!.Latest : item.Occurrence?.At ?? item.Prior!.Latest,
            content.Issue?.Late ?? false, work.UpTo, Basis.Names.BasisSha256, content.Write());
    }

    private static string Detail(FindingPlanItem item, FindingRecord record) => string.Create(
        CultureInfo.InvariantCulture,
        $"{{\"check\":\"{record.Check}\",\"kind\":\"{item.Kind}\",\"state\":\"{record.State}\",\"count\":{record.Count},\"basis\":\"{record.BasisSha256}\"}}");
}
