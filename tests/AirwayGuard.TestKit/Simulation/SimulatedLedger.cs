using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>The ledger with a stop before each call, at which the process may end. Disposing leaves the ledger itself open.</summary>
internal sealed class SimulatedLedger(ILedger ledger, Turns turns, Fences fences, Sabotage sabotage) : ILedger
{
    public IEntityInterner Entities => ledger.Entities;

    public string NameOf(Entity entity) => ledger.NameOf(entity);

    public string IdentityOf(Entity entity) => ledger.IdentityOf(entity);

    public bool TryFind(EntityKind kind, ReadOnlySpan<byte> utf8Name, out Entity entity) => ledger.TryFind(kind, utf8Name, out entity);

    public ValueTask<Problem?> BindAsync(string serverBaseAddress, string serverIdentity, CancellationToken stop) =>
        CallAsync("bind", () => ledger.BindAsync(serverBaseAddress, serverIdentity, stop));

    public async ValueTask<IReadOnlyList<KeptArrival>> KeepAsync(IReadOnlyList<ReadArrival> arrivals, SweepCursor? moved, CancellationToken stop)
    {
        if (sabotage == Sabotage.CursorMovesFirst && moved is not null)
        {
            var wide = moved with { Name = moved.Name.Replace("sweep:", "sweep-wide:", StringComparison.Ordinal) };
            await CallAsync("move " + moved.Name, async () =>
            {
                await ledger.KeepAsync([], wide, stop);
                return await ledger.KeepAsync([], moved, stop);
            });
            moved = null;
        }

        return await CallAsync(moved is null ? $"keep {arrivals.Count}" : $"keep {arrivals.Count} and move {moved.Name}", () => KeepOrNotAsync(arrivals, moved, stop));
    }

    public ValueTask<SweepCursor?> CursorAsync(string name, CancellationToken stop) => CallAsync("cursor " + name, () => ledger.CursorAsync(name, stop));

    public ValueTask<int> RaiseDueAsync(DateTimeOffset now, CancellationToken stop) => CallAsync("raise due", () => ledger.RaiseDueAsync(now, stop));

    public ValueTask<DateTimeOffset?> NextDueAsync(CancellationToken stop) => CallAsync("next due", () => ledger.NextDueAsync(stop));

    public ValueTask<BasisSince> AdoptBasisAsync(string basisSha256, RuleDocument? rules, DateTimeOffset now, CancellationToken stop) =>
        CallAsync("adopt basis", () => ledger.AdoptBasisAsync(basisSha256, rules, now, stop));

    public async ValueTask<Work?> ClaimAsync(WorkKind kind, TimeSpan lease, DateTimeOffset now, CancellationToken stop)
    {
        var name = kind == WorkKind.Judge ? "claim to judge" : "claim to send";
        return await CallAsync(
            name,
            async () =>
            {
                var work = await ledger.ClaimAsync(kind, lease, now, stop);
                fences.Claimed(work);
                return work;
            });
    }

    public ValueTask<TimelineLease> LoadAsync(Entity patient, TimeRange window, Position asKnownAt, CancellationToken stop) =>
        CallAsync("load", () => ledger.LoadAsync(patient, window, asKnownAt, stop));

    public ValueTask<TimelineLease> LoadAsync(Entity patient, QuestionScope scope, Position asKnownAt, CancellationToken stop) =>
        CallAsync("load for a question", () => ledger.LoadAsync(patient, scope, asKnownAt, stop));

    public ValueTask<JudgedPoint?> LastJudgedAsync(Entity patient, CancellationToken stop) => CallAsync("last-judged", () => ledger.LastJudgedAsync(patient, stop));

    public ValueTask<IReadOnlyList<FindingRecord>> FindingsAsync(Entity patient, CancellationToken stop) =>
        CallAsync("findings", () => ledger.FindingsAsync(patient, stop));

    public ValueTask<FindingRecord?> FindingAsync(Guid key, CancellationToken stop) => CallAsync("finding", () => ledger.FindingAsync(key, stop));

    public ValueTask<Committed> DecideAsync(Decision decision, CancellationToken stop) =>
        CallAsync($"decide {decision.Changes.Length} of {ledger.NameOf(decision.Patient)}", async () => fences.Note(await ledger.DecideAsync(Spoilt(decision), stop)));

    public ValueTask<Committed> FailAsync(FailedJudgement failed, CancellationToken stop) =>
        CallAsync($"fail {failed.Code} of {ledger.NameOf(failed.Patient)}", () => ledger.FailAsync(failed, stop));

    public ValueTask<Committed> ReleaseAsync(Work work, CancellationToken stop) => CallAsync("release", () => ledger.ReleaseAsync(work, stop));

    public ValueTask<ServerVersion?> LastSentAsync(Guid key, CancellationToken stop) =>
        CallAsync("last sent", async () => sabotage == Sabotage.SentForgotten ? null : await ledger.LastSentAsync(key, stop));

    public async ValueTask NoteMadeAsync(Guid key, string serverId, CancellationToken stop) => await CallAsync(
        "note made",
        async () =>
        {
            await ledger.NoteMadeAsync(key, serverId, stop);
            return true;
        });

    public ValueTask<Outgoing?> OutgoingAsync(Guid key, CancellationToken stop) => CallAsync("outgoing", () => ledger.OutgoingAsync(key, stop));

    public ValueTask<Committed> SettleAsync(Receipt receipt, CancellationToken stop) =>
        CallAsync($"settle {receipt.State} {receipt.ProblemCode}".TrimEnd(), async () => fences.Note(await ledger.SettleAsync(receipt, stop)));

    public ValueTask<IReadOnlyList<ParkedEntry>> ParkedEntriesAsync(CancellationToken stop) => CallAsync("parked", () => ledger.ParkedEntriesAsync(stop));

    public ValueTask<bool> RetryParkedAsync(long number, ReadArrival? readAgain, CancellationToken stop) =>
        CallAsync("retry parked", () => ledger.RetryParkedAsync(number, readAgain, stop));

    public async ValueTask SignOffAsync(SignOff act, RuleDocument? document, CancellationToken stop) => await CallAsync(
        "sign off",
        async () =>
        {
            await ledger.SignOffAsync(act, document, stop);
            return true;
        });

    public ValueTask<IReadOnlyList<SignOff>> SignOffsAsync(CancellationToken stop) =>
        CallAsync("sign-offs", () => ledger.SignOffsAsync(stop));

    public ValueTask<IReadOnlyList<Arrival>> StandingAsync(string type, CancellationToken stop) =>
        CallAsync("standing " + type, () => ledger.StandingAsync(type, stop));

    public ValueTask<RuleDocument?> RulesAsync(string sha256, CancellationToken stop) =>
        CallAsync("rules", () => ledger.RulesAsync(sha256, stop));

    public ValueTask<bool> DropParkedAsync(long number, string reason, CancellationToken stop) =>
        CallAsync("drop parked", () => ledger.DropParkedAsync(number, reason, stop));

    public async ValueTask ParkAsync(ParkedItem item, CancellationToken stop) => await CallAsync(
        "park " + item.Code,
        async () =>
        {
            await ledger.ParkAsync(item, stop);
            return true;
        });

    public ValueTask<IReadOnlyList<ParkedItem>> ParkedAsync(CancellationToken stop) => CallAsync("parked", () => ledger.ParkedAsync(stop));

    public ValueTask<Arrival?> ArrivalAsync(Position position, CancellationToken stop) => CallAsync("arrival", () => ledger.ArrivalAsync(position, stop));

    public ValueTask<IReadOnlyList<Position>> VersionsAsync(Entity row, CancellationToken stop) => CallAsync("versions", () => ledger.VersionsAsync(row, stop));

    public ValueTask<StandingVersion?> StandingVersionAsync(Entity row, CancellationToken stop) =>
        CallAsync("standing version", () => ledger.StandingVersionAsync(row, stop));

    public ValueTask<bool> UseTokenAsync(UsedToken token, DateTimeOffset now, CancellationToken stop) => CallAsync("use token", () => ledger.UseTokenAsync(token, now, stop));

    public async ValueTask AnswerAsync(IReadOnlyList<HookAnswer> answers, CancellationToken stop) => await CallAsync(
        $"answer {answers.Count} with {answers.Sum(static answer => answer.Cards.Length)}",
        async () =>
        {
            await ledger.AnswerAsync(answers, stop);
            return true;
        });

    public ValueTask<IReadOnlyList<FeedbackKept>> KeepFeedbackAsync(string service, IReadOnlyList<CardFeedback> feedback, DateTimeOffset now, CancellationToken stop) =>
        CallAsync($"keep feedback {feedback.Count}", () => ledger.KeepFeedbackAsync(service, feedback, now, stop));

    public IAsyncEnumerable<PatientHistory> HistoryAsync(HistoryRange range, CancellationToken stop) => ledger.HistoryAsync(range, stop);

    public ValueTask<AuditHead> AuditAsync(IReadOnlyList<AuditNote> notes, DateTimeOffset now, CancellationToken stop) =>
        CallAsync("audit", () => ledger.AuditAsync(notes, now, stop));

    public IAsyncEnumerable<AuditEntry> AuditTrailAsync(CancellationToken stop) => ledger.AuditTrailAsync(stop);

    public ValueTask<Core.Diagnostics.Problem?> PlaceAsync(CancellationToken stop) => ledger.PlaceAsync(stop);

    public ValueTask<LedgerState> StateAsync(CancellationToken stop) => CallAsync("state", () => ledger.StateAsync(stop));

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private Decision Spoilt(Decision decision) => sabotage switch
    {
        Sabotage.DueTimesForgotten => decision with { Due = [] },
        Sabotage.FenceIgnored => decision with { Fence = fences.Newest(decision.Patient) },
        Sabotage.OutboxForgotten when decision.Outgoing.Length > 1 => decision with { Outgoing = decision.Outgoing.RemoveAt(0) },
        _ => decision,
    };

    private async ValueTask<IReadOnlyList<KeptArrival>> KeepOrNotAsync(IReadOnlyList<ReadArrival> arrivals, SweepCursor? moved, CancellationToken stop)
    {
        try
        {
            return await ledger.KeepAsync(arrivals, moved, stop);
        }
        catch (Exception trouble) when (sabotage == Sabotage.FullDiskIgnored && SimulatedDisk.IsFull(trouble))
        {
            return moved is null ? [] : await ledger.KeepAsync([], moved, stop);
        }
    }

    private async ValueTask<T> CallAsync<T>(string name, Func<ValueTask<T>> call)
    {
        var fate = await turns.Before(name, request: null);
        if (fate == Fate.EndBefore)
        {
            await PendingCall.Never;
        }

        // The writer has a thread of its own; waited for here, the schedule stays on one thread.
        var done = await OneThread.DoneAsync(call());
        if (fate == Fate.EndAfter)
        {
            await PendingCall.Never;
        }

        return done;
    }
}
