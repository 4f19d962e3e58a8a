using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.TestKit.Pipeline;
using Xunit;
using AirwayGuard.Worker.Questions;

namespace AirwayGuard.Worker.Tests.Questions;

public sealed class OrderQuestionTests
{
    private const string TooHigh = "Closed suction 14 Fr at 220 mmHg as needed";

    [Fact]
    public async Task ADraftAboveTheCeiling_GetsACardWithValueAndLimit_BeforeItIsSigned()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        var reply = await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Words(TooHigh)]));

        Assert.Null(reply.Fault);
        var card = reply.Cards[0];
        Assert.Equal("The order allows a vacuum of 220 mmHg, above the adult ceiling of 150 mmHg.", card.Summary);
        Assert.Equal(CardIndicator.Warning, card.Indicator);
        Assert.Equal("ordered-vacuum-above-ceiling", card.Source.Topic?.Code);
        Assert.Equal("Suction policy: strict-ranges 1.0.0", card.Source.Label);
        Assert.Contains("This is no alarm and no treatment advice", card.Detail, StringComparison.Ordinal);
        Assert.Equal(
            ["thick-secretions", "suspected-obstruction", "emergency", "lung-injury", "raised-intracranial-pressure", "bleeding-risk", "shallow-ineffective", "order-specific", "other-with-text"],
            card.OverrideReasons.Select(reason => reason.Code), StringComparer.Ordinal);
    }

    [Fact]
    public async Task AnUnsafeValueInWords_IsSaidWhereItStands_AndNoChangeOfItIsOffered()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        var card = (await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Words(TooHigh)]))).Cards[0];

        Assert.Empty(card.Suggestions);
        Assert.Contains("Stands in the order's text, to be changed there", card.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AStructuredVacuum_IsOfferedAtTheCeiling_AndNothingElseOfTheOrderChanges()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var draft = Drafts.Equipment(vacuum: 220, french: 10);

        var card = Assert.Single((await bench.AskAsync(QuestionBench.Sign("p1", [draft]))).Cards);

        var suggestion = Assert.Single(card.Suggestions);
        Assert.Equal("Change the vacuum to 150 mmHg", suggestion.Label);
        Assert.Equal(draft.Replace("220", "150", StringComparison.Ordinal), JsonNode.Parse(suggestion.Resource.Span)!.ToJsonString());
    }

    [Theory]
    [InlineData("kPa", 29.3, "19.9 kPa")]
    [InlineData("cm[H2O]", 300, "203 cmH2O")]
    public async Task AVacuumInAnotherUnit_IsOfferedInThatUnit_AtTheCeilingOrUnderIt(string unit, double charted, string offered)
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        var card = Assert.Single((await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(vacuum: (decimal)charted, unit: unit)]))).Cards);

        Assert.Equal($"Change the vacuum to {offered}", Assert.Single(card.Suggestions).Label);
    }

    [Fact]
    public async Task ACatheterTooWide_IsOfferedInTheLargestSizeThatBreachesNothing()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube(7.0m));

        var card = Assert.Single((await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(french: 16)]))).Cards);

        // 10 Fr in 7.0 mm is 47.6 %, 12 Fr is 57.1 %: outside diameter is French over three (UCUM [Ch]).
        Assert.Equal("Change the catheter to 10 Fr", Assert.Single(card.Suggestions).Label);
    }

    [Fact]
    public async Task AnOrderThatBreachesTwice_IsOfferedNoChangeOfOneElement()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube(7.0m));

        var reply = await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(vacuum: 220, french: 16)]));

        // 16 Fr takes 76 % of 7.0 mm, which is high too; of equals the id decides.
        Assert.Equal(["catheter-too-wide", "ordered-vacuum-above-ceiling"], reply.Cards.Select(card => card.Source.Topic!.Code), StringComparer.Ordinal);
        Assert.All(reply.Cards, card => Assert.Empty(card.Suggestions));
    }

    [Fact]
    public async Task AnOrderToldInWordsBesides_IsOfferedNoChange_SinceTheWordsWouldStillSayTheOldValue()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var draft = JsonNode.Parse(Drafts.Equipment(vacuum: 220))!;
        draft["text"] = new JsonObject { ["status"] = "generated", ["div"] = "<div xmlns=\"http://www.w3.org/1999/xhtml\">Vacuum 220 mmHg</div>" };

        Assert.Empty(Assert.Single((await bench.AskAsync(QuestionBench.Sign("p1", [draft.ToJsonString()]))).Cards).Suggestions);
    }

    [Fact]
    public async Task TwoDraftsOfOneName_AreRefused_SinceOneOfThemWouldNotBeJudged()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        var fault = (await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(vacuum: 220), Drafts.Equipment(vacuum: 120)]))).Fault;

        Assert.Equal(("AG8105", "context.draftOrders.entry[1].resource.id", 400), (fault?.Code.Id, fault?.Where, fault?.Status));
    }

    [Theory]
    [InlineData("status", "\"unknown\"")]
    [InlineData("status", "\"Draft\"")]
    [InlineData("intent", "\"foo\"")]
    [InlineData("modifierExtension", "[{\"url\":\"https://x.test/m\",\"valueBoolean\":true}]")]
    public async Task WhatKeepsADraftFromBeingJudged_IsTold(string member, string json)
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var draft = JsonNode.Parse(Drafts.Words(TooHigh))!;
        draft[member] = JsonNode.Parse(json);

        var card = Assert.Single((await bench.AskAsync(QuestionBench.Sign("p1", [draft.ToJsonString()]))).Cards);

        Assert.Null(card.Source.Topic);
        Assert.Contains("Not read", card.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task OfADraftThatWasNotChosen_NothingIsTold_AlsoWhereItCouldNotBeRead()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var request = QuestionBench.Sign("p1", [Drafts.Words(TooHigh, "a", status: "unknown"), Drafts.Equipment(vacuum: 220, id: "b")]);
        request["hook"] = "order-select";
        request["context"]!["selections"] = new JsonArray("DeviceRequest/b");

        Assert.Equal("ordered-vacuum-above-ceiling", Assert.Single((await bench.AskAsync(request, HookServices.OrderSelect)).Cards).Source.Topic?.Code);
    }

    [Fact]
    public async Task AnOrderChangedSince_GetsACardOfItsOwn_UnderTheSameCall()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        Assert.NotEqual(
            (await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(vacuum: 220)]))).Cards[0].Id,
            (await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(vacuum: 240)]))).Cards[0].Id);
    }

    [Fact]
    public async Task MoreBreachesThanAnybodyReads_AreCountedInTheLastCard()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        var cards = (await bench.AskAsync(QuestionBench.Sign("p1", Enumerable.Range(1, 60).Select(i => Drafts.Equipment(vacuum: 220, id: $"e{i}"))))).Cards;

        Assert.Equal(51, cards.Length);
        Assert.Equal("10 more breaches of the suction policy by these orders.", cards[^1].Summary);
    }

    [Fact]
    public async Task AChoiceThatNamesNoDraft_MayMeanAnyOfThem()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var request = QuestionBench.Sign("p1", [Drafts.Equipment(vacuum: 220)]);
        request["hook"] = "order-select";
        request["context"]!["selections"] = new JsonArray("urn:uuid:6f7b2f0e-2a52-4b39-9c3e-0c2f4f0d7a11");

        Assert.Single((await bench.AskAsync(request, HookServices.OrderSelect)).Cards);
    }

    [Fact]
    public async Task ADraft_IsAQuestion_AndNoArrival()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var before = await bench.Ledger.StateAsync(TestContext.Current.CancellationToken);

        await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Words(TooHigh)], Drafts.Prefetch(Drafts.Patient(), Drafts.Row("later", "tube-inner-diameter", 6m, "mm"))));

        var after = await bench.Ledger.StateAsync(TestContext.Current.CancellationToken);
        Assert.Equal((before.Newest, before.Arrivals, before.PatientsWaiting), (after.Newest, after.Arrivals, after.PatientsWaiting));
        Assert.False(bench.Ledger.TryFind(EntityKind.Order, "ServiceRequest/d1"u8, out _));
        Assert.False(bench.Ledger.TryFind(EntityKind.Row, "Observation/later"u8, out _));
    }

    [Fact]
    public async Task AnAnswer_StandsInTheAuditTrail_WithoutWhatWasOrdered()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        var reply = await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Words(TooHigh)]));

        var entries = new List<Core.Ports.AuditEntry>();
        await foreach (var entry in bench.Ledger.AuditTrailAsync(TestContext.Current.CancellationToken))
        {
            entries.Add(entry);
        }

        var noted = Assert.Single(entries, entry => entry.What == "question-answered");
        Assert.Contains(reply.Cards[0].Id.ToString(), noted.Detail, StringComparison.Ordinal);
        Assert.DoesNotContain("220", noted.Detail, StringComparison.Ordinal);
        Assert.DoesNotContain("p1", noted.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SilentRules_MakeNoCards()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now, signedOff: SignedOff.None);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        Assert.Empty((await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Words(TooHigh)]))).Cards);
    }

    [Theory]
    [InlineData("on-hold")]
    [InlineData("revoked")]
    [InlineData("completed")]
    [InlineData("entered-in-error")]
    public async Task AnOrderThatWillNotBeActive_IsNotJudged(string status)
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        Assert.Empty((await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Words(TooHigh, status: status)]))).Cards);
    }

    [Theory]
    [InlineData("active")]
    [InlineData("draft")]
    public async Task AnOrderSignedAgain_IsJudgedAsItNowReads_WhateverTheLedgerHasOfIt(string status)
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube(), Drafts.Words("Closed suction 10 Fr at 100 mmHg as needed", status: "active"));

        Assert.Contains((await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Words(TooHigh, status: status)]))).Cards, card => card.Source.Topic?.Code == "ordered-vacuum-above-ceiling");
        Assert.DoesNotContain(
            (await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Words("Closed suction 10 Fr at 110 mmHg as needed", status: status)]))).Cards, card => card.Source.Topic?.Code == "ordered-vacuum-above-ceiling");
    }

    [Fact]
    public async Task WithOrderSelect_OnlyWhatWasChosenIsTold()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var request = QuestionBench.Sign("p1", [Drafts.Equipment(vacuum: 220, id: "a"), Drafts.Equipment(vacuum: 240, id: "b")]);
        request["hook"] = "order-select";
        request["context"]!["selections"] = new JsonArray("DeviceRequest/b");

        var reply = await bench.AskAsync(request, HookServices.OrderSelect);

        Assert.Contains("240", Assert.Single(reply.Cards).Summary, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatCannotBeJudged_IsSaid_SinceNoCardWouldReadAsAllWell()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, """{"resourceType":"Patient","id":"p1","meta":{"versionId":"1","lastUpdated":"2026-03-01T06:00:00Z"}}""", Drafts.Airway(), Drafts.Tube());

        var card = Assert.Single((await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(vacuum: 120)]))).Cards);

        Assert.Equal("Not judged by the suction policy for want of: birth date.", card.Summary);
        Assert.Equal(CardIndicator.Info, card.Indicator);
        Assert.Null(card.Source.Topic);
    }

    [Fact]
    public async Task AnOrderOfSomethingElse_NeedsNothing_AndGetsNothing()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);

        var reply = await bench.AskAsync(QuestionBench.Sign("nobody-knows", ["""{"resourceType":"MedicationRequest","id":"m1","status":"draft","intent":"order"}"""]));

        Assert.Null(reply.Fault);
        Assert.Empty(reply.Cards);
    }

    [Fact]
    public async Task ChartingOlderThanFiveMinutes_IsToldWithItsAge()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now.AddMinutes(-5), Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var request = QuestionBench.Sign("p1", [Drafts.Words(TooHigh)]);

        Assert.DoesNotContain("Age of the charting", (await bench.AskAsync(request)).Cards[0].Detail, StringComparison.Ordinal);
        bench.Clock.Now = Drafts.Now.AddMinutes(7);
        Assert.Contains("known up to 2026-03-02 09:25 UTC, 12 minutes ago", (await bench.AskAsync(request)).Cards[0].Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TheSameQuestionAgain_NamesTheSameCards()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var request = QuestionBench.Sign("p1", [Drafts.Words(TooHigh)]);

        Assert.Equal((await bench.AskAsync(request)).Cards.Select(card => card.Id), (await bench.AskAsync(request)).Cards.Select(card => card.Id));
    }

    [Fact]
    public async Task ADateAloneIsNoTime_SoTheDraftIsOfNow()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        foreach (var written in (string[])["2026-03-02", "2027-01-01T00:00:00Z", "2026-03-02T08:00:00"])
        {
            var draft = JsonNode.Parse(Drafts.Equipment(vacuum: 220))!;
            draft["authoredOn"] = written;
            Assert.Equal("ordered-vacuum-above-ceiling", Assert.Single((await bench.AskAsync(QuestionBench.Sign("p1", [draft.ToJsonString()]))).Cards).Source.Topic?.Code);
        }
    }
}
