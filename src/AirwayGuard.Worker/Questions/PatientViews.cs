using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Worker.Questions;

/// <summary>
/// Says what stands of a patient whose chart is opened: the same that its Flags say, and nothing that is not shown there. From the ledger alone;
/// of a patient who is not followed nothing stands. Safe for concurrent use.
/// </summary>
public sealed class PatientViews(ILedger ledger, BasisInForce inForce, SweptUpTo swept, AnswerBook book, PolicyLabel policy, TimeProvider clock)
{
    /// <summary>What stands is told in so many cards, the highest severity first; of more their number.</summary>
    public const int MostCards = 5;

    public async ValueTask<HookReply> AnswerAsync(HookRequest request, string service, CancellationToken stop)
    {
        var (basis, now) = (inForce.Current, clock.GetUtcNow());
        if (!basis.Speaks)
        {
            return HookReply.Nothing;
        }

        if (await swept.ReadAsync(stop) is not { } upTo)
        {
            return HookReply.Refused(new HookFault(Codes.HookDataMissing, "context.patientId", "The service has not yet read its server to the end, so that nobody knows what stands.", 412));
        }

        if (!ledger.TryFind(EntityKind.Patient, Encoding.UTF8.GetBytes("Patient/" + request.PatientId), out var patient))
        {
            return HookReply.Nothing;
        }

        var standing = (await ledger.FindingsAsync(patient, stop)).Select(Standing.Of).OfType<Standing>()
            .OrderByDescending(static one => one.Flag.Severity).ThenBy(static one => one.Record.First).ThenBy(static one => one.Record.Key).ToList();
        if (standing.Count == 0)
        {
            return HookReply.Nothing;
        }

        var (cards, given) = (ImmutableArray.CreateBuilder<Card>(), ImmutableArray.CreateBuilder<GivenCard>());
        foreach (var one in standing.Take(MostCards))
        {
            var id = CardIds.OfView(service, request.Instance, request.PatientId, one.Record.Key);
            cards.Add(CardOf(id, one, basis.Rules, now, upTo));
            given.Add(new GivenCard(id, one.Record.Check, one.Flag.Severity, ViewContent.Of(one.Record.Key)));
        }

        if (standing.Count > MostCards)
        {
            var id = CardIds.OfView(service, request.Instance, request.PatientId, Guid.Empty);
            cards.Add(CardOfMore(id, [.. standing.Skip(MostCards)], basis.Rules, now, upTo));
            given.Add(new GivenCard(id, "", Severity.Low, ViewContent.Of(Guid.Empty)));
        }

        await book.AddAsync(
            new HookAnswer(service, HookNames.Of(request.Hook), now, basis.Names.BasisSha256, patient, given.ToImmutable(), HookNotes.Of(service, basis.Names.BasisSha256, given, "ledger")), stop);
        return new HookReply(cards.ToImmutable(), null);
    }

    private Card CardOf(Guid id, Standing one, RuleSet rules, DateTimeOffset now, DateTimeOffset upTo)
    {
        var (foot, detail) = (new CardFoot(rules, policy, now, upTo), new CardLines());
        detail.Add("Since", CardFoot.At(new DateTimeOffset(one.Record.First, TimeSpan.Zero)));
        detail.Add("Number of breaches", one.Record.Count > 1 ? one.Record.Count.ToString(CultureInfo.InvariantCulture) : null);
        detail.Add("Clears with", rules.Find(one.Record.Check)?.ClearedBy);
        foot.AddTo(detail);
        return new Card(
            id, CardText.Short(CardText.Plain(one.Flag.Text)), one.Flag.Severity == Severity.Low ? CardIndicator.Info : CardIndicator.Warning, detail.ToString(), foot.SourceOf(one.Record.Check), [], []);
    }

    private Card CardOfMore(Guid id, IReadOnlyList<Standing> more, RuleSet rules, DateTimeOffset now, DateTimeOffset upTo)
    {
        var (foot, detail) = (new CardFoot(rules, policy, now, upTo), new CardLines());
        detail.AddAll("Standing too", more.Select(static one => one.Flag.Text));
        foot.AddTo(detail);
        return new Card(id, string.Create(CultureInfo.InvariantCulture, $"{more.Count} more {(more.Count == 1 ? "finding stands" : "findings stand")} by the suction policy."), CardIndicator.Info, detail.ToString(), foot.SourceOf(null), [], []);
    }

    private sealed record Standing(FindingRecord Record, FlagMessage Flag)
    {
        public static Standing? Of(FindingRecord record) =>
            record is { Kind: FindingKind.Spell, State: FindingState.Open } && FindingContent.Read(record.Content.Span) is { Sent: true, Withheld: Withholding.None, Flag: { Status: FlagStatus.Active } flag }
                ? new Standing(record, flag)
                : null;
    }
}
