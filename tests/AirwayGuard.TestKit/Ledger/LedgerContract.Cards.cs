using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    private const string SignService = "suction-order-sign";
    private static readonly Guid FirstCard = new("0a0e0d0c-0b0a-0908-0706-050403020100"), SecondCard = new("ff0e0d0c-0b0a-0908-0706-0504030201ff"), Suggestion = new("010e0d0c-0b0a-0908-0706-050403020100");

    private static HookAnswer AnswerOf(Entity patient, DateTimeOffset at, params Guid[] cards) => new(
        SignService, "order-sign", at, "basis-1", patient,
        [.. cards.Select(card => new GivenCard(card, "vacuum-above-ceiling", Severity.High, """{"vacuum":220}"""))],
        new AuditNote("question-answered", SignService, $$"""{"cards":{{cards.Length}}}""", default));

    private static CardFeedback Overridden(Guid card, int minutes = 1, string code = "emergency", string system = OverrideReasons.System) =>
        new(card, CardOutcome.Overridden, Now.AddMinutes(minutes), system, code, "Emergency", "She was blue.", []);

    private static CardFeedback Accepted(Guid card, int minutes = 1) => new(card, CardOutcome.Accepted, Now.AddMinutes(minutes), "", "", "", "", [Suggestion, FirstCard]);

    private ValueTask<IReadOnlyList<FeedbackKept>> Report(params CardFeedback[] feedback) => Ledger.KeepFeedbackAsync(SignService, feedback, Now, Stop);

    private async ValueTask<IReadOnlyList<CardHistory>> CardsGiven(DateTimeOffset? from = null, DateTimeOffset? to = null)
    {
        await using var reader = OpenReader();
        return await reader.CardsAsync(from ?? DateTimeOffset.MinValue, to ?? DateTimeOffset.MaxValue, Stop);
    }

    [Fact]
    public async Task An_answer_keeps_its_cards_and_its_note_together_and_both_outlive_a_restart()
    {
        await Ledger.AnswerAsync([AnswerOf(Ledger.Intern("Patient/1"), Now, SecondCard, FirstCard)], Stop);
        await ReopenAsync();

        var cards = await CardsGiven();

        Assert.Equal([FirstCard, SecondCard], cards.Select(card => card.Card));
        Assert.All(cards, card => Assert.Equal(
            (SignService, "order-sign", "vacuum-above-ceiling", Severity.High, Now, 0), (card.Service, card.Hook, card.Check, card.Severity, card.At, card.Feedback.Length)));
        Assert.Equal(("question-answered", SignService), await LastEntryAsync());
    }

    [Fact]
    public async Task An_answer_without_cards_or_of_nobody_known_is_in_the_trail_all_the_same()
    {
        await Ledger.AnswerAsync([AnswerOf(default, Now)], Stop);
        await Ledger.AnswerAsync([AnswerOf(default, Now, FirstCard)], Stop);

        Assert.Equal(["""{"cards":0}""", """{"cards":1}"""], (await Trail()).Select(entry => entry.Detail), StringComparer.Ordinal);
        Assert.Single(await CardsGiven());
    }

    [Fact]
    public async Task A_patient_first_named_by_an_answer_keeps_the_number_it_was_kept_under()
    {
        var patient = Ledger.Intern("Patient/new");
        await Ledger.AnswerAsync([AnswerOf(patient, Now, FirstCard)], Stop);
        await ReopenAsync();

        Assert.True(Ledger.TryFind(EntityKind.Patient, "Patient/new"u8, out var found));
        Assert.Equal(patient, found);
    }

    [Fact]
    public async Task A_card_that_is_given_again_stays_as_it_was_and_the_answer_is_in_the_trail_again()
    {
        await Ledger.AnswerAsync([AnswerOf(default, Now, FirstCard)], Stop);
        var again = AnswerOf(Ledger.Intern("Patient/1"), Now.AddMinutes(1), FirstCard, SecondCard, SecondCard);

        await Ledger.AnswerAsync([again with { Service = "another", Cards = [.. again.Cards.Select(card => card with { Check = "other", Severity = Severity.Low })] }], Stop);

        Assert.Equal(
            [(FirstCard, SignService, "vacuum-above-ceiling", Severity.High, Now), (SecondCard, "another", "other", Severity.Low, Now.AddMinutes(1))],
            (await CardsGiven()).Select(card => (card.Card, card.Service, card.Check, card.Severity, card.At)));
        Assert.Equal(["""{"cards":1}""", """{"cards":3}"""], (await Trail()).Select(entry => entry.Detail), StringComparer.Ordinal);
        await VerifySound(Ledger);
    }

    [Fact]
    public async Task Cards_are_read_by_time_then_id_from_a_time_included_to_a_time_not_included()
    {
        Guid third = new("0b0e0d0c-0b0a-0908-0706-050403020100"), fourth = new("0c0e0d0c-0b0a-0908-0706-050403020100");
        await Ledger.AnswerAsync([AnswerOf(default, Now.AddTicks(1), third, FirstCard)], Stop);
        await Ledger.AnswerAsync([AnswerOf(default, Now, SecondCard)], Stop);
        await Ledger.AnswerAsync([AnswerOf(default, Now.AddTicks(2), fourth)], Stop);

        Assert.Equal([SecondCard, FirstCard, third, fourth], (await CardsGiven()).Select(card => card.Card));
        Assert.Equal([FirstCard, third], (await CardsGiven(Now.AddTicks(1), Now.AddTicks(2))).Select(card => card.Card));
        Assert.Empty(await CardsGiven(Now.AddTicks(1), Now.AddTicks(1)));
    }

    [Fact]
    public async Task What_is_reported_on_a_card_is_kept_with_everything_that_was_said_oldest_first()
    {
        await Ledger.AnswerAsync([AnswerOf(default, Now, FirstCard, SecondCard)], Stop);

        Assert.Equal([FeedbackKept.Kept, FeedbackKept.Kept], await Report(Accepted(FirstCard, minutes: 9), Overridden(FirstCard, minutes: 3)));

        var card = (await CardsGiven())[0];
        Assert.Equal([CardOutcome.Overridden, CardOutcome.Accepted], card.Feedback.Select(feedback => feedback.Outcome));
        var overridden = card.Feedback[0];
        Assert.Equal(
            (FirstCard, Now.AddMinutes(3), OverrideReasons.System, "emergency", "Emergency", "She was blue.", 0),
            (overridden.Card, overridden.At, overridden.ReasonSystem, overridden.ReasonCode, overridden.ReasonDisplay, overridden.Comment, overridden.Suggestions.Length));
        Assert.Equal([Suggestion, FirstCard], card.Feedback[1].Suggestions);
        Assert.All(card.Feedback, static feedback => Assert.NotNull(feedback.KeptAt));
    }

    [Fact]
    public async Task The_same_report_counts_once_also_within_one_call_and_what_is_not_new_writes_nothing()
    {
        await Ledger.AnswerAsync([AnswerOf(default, Now, FirstCard)], Stop);

        Assert.Equal([FeedbackKept.Kept, FeedbackKept.Repeated], await Report(Overridden(FirstCard), Overridden(FirstCard) with { Comment = "Again." }));
        var before = (await Trail()).Count;
        Assert.Equal([FeedbackKept.Repeated], await Report(Overridden(FirstCard)));
        Assert.Equal(before, (await Trail()).Count);
        Assert.Equal([FeedbackKept.Kept, FeedbackKept.Kept], await Report(Accepted(FirstCard), Overridden(FirstCard, minutes: 2)));

        Assert.Equal("She was blue.", (await CardsGiven())[0].Feedback.Single(feedback => feedback is { Outcome: CardOutcome.Overridden } && feedback.At == Now.AddMinutes(1)).Comment);
    }

    [Fact]
    public async Task A_report_on_a_card_that_this_service_did_not_give_is_told_apart_and_not_kept()
    {
        await Ledger.AnswerAsync([AnswerOf(default, Now, FirstCard)], Stop);
        var before = (await Trail()).Count;

        Assert.Equal([FeedbackKept.CardUnknown], await Report(Overridden(SecondCard)));
        Assert.Equal([FeedbackKept.CardUnknown], await Ledger.KeepFeedbackAsync("suction-order-select", [Overridden(FirstCard)], Now, Stop));
        Assert.Empty(await Ledger.KeepFeedbackAsync(SignService, [], Now, Stop));

        Assert.Equal(before, (await Trail()).Count);
        Assert.Empty((await CardsGiven())[0].Feedback);
    }

    [Fact]
    public async Task The_trail_tells_what_was_done_with_a_card_and_never_what_a_person_wrote()
    {
        await Ledger.AnswerAsync([AnswerOf(default, Now, FirstCard)], Stop);

        await Report(
            Overridden(FirstCard), Overridden(FirstCard, 2, "own", "urn:theirs"), Overridden(FirstCard, 3, "She was blue"), Overridden(FirstCard, 4, "", ""),
            Accepted(FirstCard, minutes: 5));

        var entries = (await Trail()).Where(entry => entry.What == "card-answered").ToList();
        Assert.Equal(
            [
                """{"check":"vacuum-above-ceiling","outcome":"overridden","reason":"emergency","suggestions":0}""",
                """{"check":"vacuum-above-ceiling","outcome":"overridden","reason":"other","suggestions":0}""",
                """{"check":"vacuum-above-ceiling","outcome":"overridden","reason":"other","suggestions":0}""",
                """{"check":"vacuum-above-ceiling","outcome":"overridden","suggestions":0}""",
                """{"check":"vacuum-above-ceiling","outcome":"accepted","suggestions":2}""",
            ],
            entries.Select(entry => entry.Detail),
            StringComparer.Ordinal);
        Assert.All(entries, entry => Assert.Equal(FirstCard.ToString(), entry.Subject));
    }
}
