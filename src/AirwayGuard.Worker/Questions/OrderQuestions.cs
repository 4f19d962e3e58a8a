using System.Collections.Immutable;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Questions;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Worker.Questions;

/// <summary>Cards in answer to a question, with what is kept of them; or why there is no answer.</summary>
public sealed record HookReply(ImmutableArray<Card> Cards, HookFault? Fault)
{
    public static readonly HookReply Nothing = new([], null);

    public static HookReply Refused(HookFault fault) => new([], fault);
}

/// <summary>
/// Answers what an order entry asks before an order is signed: would it breach the policy in force? Judged as all charting is, on the stay as the
/// ledger has it, or on what came with the question. Safe for concurrent use.
/// </summary>
/// <param name="saysAgain">In place of <see cref="OrderQuestion.SaysAgain"/>.</param>
public sealed class OrderQuestions(
    ILedger ledger, IArrivalReader reader, IChartedText texts, BasisInForce inForce, QuestionData data, QuestionPlaces places, SweptUpTo swept, AnswerBook book, PolicyLabel policy, string server, TimeProvider clock, TimeSpan? saysAgain = null)
{
    /// <summary>Breaches that are told in a card each, the highest severity first; of more their number.</summary>
    public const int MostCards = 50;

    private volatile Asked? _asked;
    private OrderJudge? _spare;

    public async ValueTask<HookReply> AnswerAsync(HookRequest request, string service, CancellationToken stop)
    {
        var (basis, now) = (inForce.Current, clock.GetUtcNow());
        var asked = AskedBy(basis);
        if (!asked.Speaks)
        {
            return HookReply.Nothing;
        }

        var entities = new QuestionEntities(ledger);
        var orders = AskedOrders.Of(request, reader, entities, server, now);
        var meant = AskedOrders.Meant(request, orders);
        var unread = orders.Where(order => order.IsUnread && (order.Row.IsNone || meant.Contains(order.Row))).ToList();
        if (!orders.Exists(order => order.IsSuction && meant.Contains(order.Row)) && unread.Count == 0)
        {
            return HookReply.Nothing;
        }

        var patient = entities.Intern(EntityKind.Patient, Encoding.UTF8.GetBytes("Patient/" + request.PatientId));
        if (orders.Find(order => order.IsOfAnotherThan(patient)) is { } foreign)
        {
            return HookReply.Refused(new HookFault(Codes.HookOtherPatient, foreign.Draft.Where + ".subject.reference", "It does not name the patient in context.", 400));
        }

        var upTo = entities.IsNew(patient) ? null : await swept.ReadAsync(stop);
        var question = asked.Question;
        var isFollowed = upTo is not null && await ledger.StandingVersionAsync(patient, stop) is not null;
        var stay = isFollowed ? await ledger.LoadAsync(patient, question.ScopeAt(Earliest(orders, now), now.UtcTicks), QuestionChart.First, stop) : null;
        using var chart = new QuestionChart(ledger, patient, stay, entities);
        if (await data.LayAsync(request, question, chart, isFollowed, now, stop) is { } fault)
        {
            return HookReply.Refused(fault);
        }

        foreach (var order in orders)
        {
            chart.Lay(order.Read, await RowKnownAsync(entities, order.Row, stop));
        }

        var rules = basis.SignedOff.GoesByUnit ? basis.SignedOff.At(question.Rules, await places.OfAsync(PlacesOf(chart, patient, now), stop)) : asked.Everywhere;
        var judge = Interlocked.Exchange(ref _spare, null) is { } spare && ReferenceEquals(spare.Rules, rules) ? spare : new OrderJudge(rules);
        var asking = new Asking(request, service, orders, meant, unread, chart, judge, basis, now, isFollowed ? patient : default);
        var reply = await CardsAsync(asking, new CardWriter(basis.Rules, chart, texts, policy, now, isFollowed ? upTo : null), stop);
        Volatile.Write(ref _spare, judge);
        return reply;
    }

    private async ValueTask<HookReply> CardsAsync(Asking asking, CardWriter writer, CancellationToken stop)
    {
        var drafts = asking.Orders.Where(static order => !order.Row.IsNone).Select(static order => order.Row).ToHashSet();
        var verdicts = asking.Judge.Judge(asking.Chart, drafts, asking.Now, asking.Basis.UnknownAge);
        var (cards, given) = (ImmutableArray.CreateBuilder<Card>(), ImmutableArray.CreateBuilder<GivenCard>());
        var told = verdicts.Breaches
            .Where(breach => breach.Rule.Mode == Mode.Live && breach.About.Any(asking.Meant.Contains))
            .OrderByDescending(static breach => breach.Occurrence.Severity)
            .ThenBy(breach => asking.Orders.FindIndex(order => breach.About.Contains(order.Row)))
            .ThenBy(static breach => breach.Rule.Id, StringComparer.Ordinal)
            .ToList();
        foreach (var breach in told.Take(MostCards))
        {
            var id = CardIds.Of(asking, breach.Rule.Id, breach.Occurrence.Key, Wording.Say(breach.Rule, breach.Occurrence));
            var card = await writer.BreachAsync(id, breach, Suggestions(asking, breach, verdicts, id), stop);
            cards.Add(card);
            given.Add(new GivenCard(id, breach.Rule.Id, breach.Occurrence.Severity, CardContent.Of(breach, asking.Chart)));
        }

        var open = verdicts.CannotTell.Where(one => one.Rule.Mode == Mode.Live && one.About.Any(asking.Meant.Contains) && !IsSaid(one, verdicts)).ToList();
        if (open.Count > 0 || asking.Unread.Count > 0)
        {
            var id = CardIds.Of(asking, "", Guid.Empty, string.Join('|', open.Select(static one => one.Rule.Id)));
            cards.Add(writer.NotJudged(id, open, asking.Unread));
            given.Add(new GivenCard(id, "", Severity.Low, CardContent.Of(open)));
        }

        if (told.Count > MostCards)
        {
            var id = CardIds.Of(asking, "", Guid.Empty, "more");
            cards.Add(writer.More(id, [.. told.Skip(MostCards)]));
            given.Add(new GivenCard(id, "", Severity.Low, "{}"));
        }

        await book.AddAsync(
            new HookAnswer(asking.Service, HookNames.Of(asking.Request.Hook), asking.Now, asking.Basis.Names.BasisSha256, asking.Followed, given.ToImmutable(), HookNotes.Of(asking, given)), stop);
        return new HookReply(cards.ToImmutable(), null);
    }

    // That the tube's diameter is not charted may be a finding of its own, with what to do about it.
    private static bool IsSaid(DerivedCannotTell open, OrderVerdicts verdicts) =>
        open.Missing is [Missing.TubeInnerDiameter] && verdicts.Breaches.Any(static breach => breach is { Rule.Mode: Mode.Live, Occurrence.Kind: SubjectKind.Airway });

    // Judged like the order itself: it must breach nothing, and nothing may be left open that was not open before.
    private IEnumerable<CardSuggestion> Suggestions(Asking asking, OrderBreach breach, OrderVerdicts before, Guid card)
    {
        var drafts = before.Breaches.SelectMany(static one => one.About).Concat(asking.Meant).ToHashSet();
        foreach (var correction in Corrections.Of(breach, asking.Orders))
        {
            var place = asking.Orders.FindIndex(order => order.Draft.Where == correction.Draft.Where);
            var arrival = QuestionArrivals.OfDraft(correction.Draft, server, asking.Request.PatientId, place + 1, asking.Now);
            var changed = AskedOrders.Read(correction.Draft, arrival, reader, asking.Chart.Entities);
            var after = asking.Judge.Judge(asking.Chart.With(changed.Read, null), drafts, asking.Now, asking.Basis.UnknownAge);
            var own = breach.About.Add(changed.Row);
            if (!after.Breaches.Any(one => one.About.Any(own.Contains)) && CountOf(after, own) <= CountOf(before, own))
            {
                yield return new CardSuggestion(CardIds.OfSuggestion(card), correction.Label, correction.Description, correction.Draft.Body);
                yield break;
            }
        }
    }

    private static int CountOf(OrderVerdicts verdicts, ImmutableArray<Entity> rows) => verdicts.CannotTell.Count(one => one.About.Any(rows.Contains));

    private async ValueTask<Position?> RowKnownAsync(QuestionEntities entities, Entity row, CancellationToken stop) =>
        row.IsNone || entities.IsNew(row) ? null : (await ledger.StandingVersionAsync(row, stop))?.RowKnown;

    private static IReadOnlyCollection<string> PlacesOf(QuestionChart chart, Entity patient, DateTimeOffset now)
    {
        using var lease = chart.Load();
        return StayPlaces.Of(lease.View, patient, chart, now.UtcTicks);
    }

    private static long Earliest(List<AskedOrder> orders, DateTimeOffset now) =>
        orders.SelectMany(static order => order.Read.Reading.Facts).Where(static fact => fact.Concept == Concepts.OrderStatus).Select(static fact => fact.EffectiveFrom).Append(now.UtcTicks).Min();

    // The rules, and who signed them off, change seldom, and are asked at every signing.
    private Asked AskedBy(ServiceBasis basis)
    {
        if (_asked is not { } asked || !ReferenceEquals(asked.Basis, basis))
        {
            var question = saysAgain is { } back ? OrderQuestion.Of(basis.Rules) with { SaysAgain = back } : OrderQuestion.Of(basis.Rules);
            _asked = asked = new Asked(basis, basis.Speaks, question, basis.SignedOff.At(question.Rules, []));
        }

        return asked;
    }

    /// <param name="Everywhere">The question's rules as they speak where no place is charted.</param>
    private sealed record Asked(ServiceBasis Basis, bool Speaks, OrderQuestion Question, RuleSet Everywhere);
}
