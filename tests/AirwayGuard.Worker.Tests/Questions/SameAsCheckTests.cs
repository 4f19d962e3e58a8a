using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Histories;
using AirwayGuard.TestKit.Pipeline;
using Xunit;
using AirwayGuard.Worker.Checking;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Worker.Tests.Questions;

/// <summary>
/// A draft is judged as <c>check</c> judges the same order among the same facts: for generated stays, with what a question reads of the ledger
/// and with what comes as prefetch.
/// </summary>
public sealed class SameAsCheckTests
{
    private const int Stays = 20;

    private static readonly CodeMap Map = CodeMap.Load(ShippedMaps.Standard).Map!;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public async Task OfAFollowedPatient_TheCardsAreCheckssBreachesAndCannotTells(int block)
    {
        var told = 0;
        for (var seed = block * 1000; seed < (block * 1000) + Stays; seed++)
        {
            var story = await StoryAsync(seed);
            await using var bench = await QuestionBench.StartAsync(story.Now, seed % 2 == 0 ? "strict-ranges" : "guideline-2022", saysAgain: seed % 3 == 0 ? null : TimeSpan.FromHours(3));
            await bench.FollowAsync(story.Now, story.Charting);

            told += await SameAsync(seed, bench, story, QuestionBench.Sign(story.Patient, story.Drafts));
        }

        // The stays must be worth asking about.
        Assert.True(told > Stays / 2, $"{told} cards in {Stays} stays");
    }

    [Theory]
    [InlineData(5)]
    [InlineData(6)]
    public async Task OfAPatientNobodyFollows_ThePrefetchGivesTheSame(int block)
    {
        var told = 0;
        for (var seed = block * 1000; seed < (block * 1000) + Stays; seed++)
        {
            var story = await StoryAsync(seed);
            await using var bench = await QuestionBench.StartAsync(story.Now, seed % 2 == 0 ? "strict-ranges" : "guideline-2022");

            told += await SameAsync(seed, bench, story, QuestionBench.Sign(story.Patient, story.Drafts, PrefetchOf(story)));
        }

        Assert.True(told > Stays / 2, $"{told} cards in {Stays} stays");
    }

    private static async Task<int> SameAsync(int seed, QuestionBench bench, Story story, JsonObject request)
    {
        var reply = await bench.AskAsync(request);
        Assert.True(reply.Fault is null, $"seed {seed}: {reply.Fault?.Code.Id} {reply.Fault?.Why}");
        var rules = bench.InForce.Current.Rules;
        var expected = await CheckAsync(rules, story);
        var drafts = story.Drafts.Select(NameOf).ToHashSet(StringComparer.Ordinal);
        var breaches = expected.Findings
            .Where(one => one.Finding.State == FindingState.Open && !one.Finding.IsWithheld)
            .SelectMany(one => one.Finding.Occurrences.Where(occurrence => !occurrence.Withheld && !occurrence.IsSuperseded).Select(occurrence => (one.Finding.Rule, Occurrence: occurrence)))
            .Where(one => one.Occurrence.Kind == SubjectKind.Order && drafts.Contains(one.Occurrence.Subject))
            .Select(one => $"{one.Rule.Id}: {CardText.Summary(Wording.Say(one.Rule, one.Occurrence))}")
            .Order(StringComparer.Ordinal).ToList();
        var cards = reply.Cards
            .Where(card => card.Source.Topic is { } topic && rules.Find(topic.Code)!.Judges.Contains(SubjectKind.Order))
            .Select(card => $"{card.Source.Topic!.Code}: {card.Summary}")
            .Order(StringComparer.Ordinal).ToList();
        Assert.True(breaches.SequenceEqual(cards, StringComparer.Ordinal), $"seed {seed}\ncheck:\n{string.Join('\n', breaches)}\ncards:\n{string.Join('\n', cards)}");
        // That the tube's diameter is not charted may be told by a card of its own.
        var isTubeTold = reply.Cards.Any(card => card.Source.Topic?.Code == "tube-diameter-unknown");
        var open = expected.CannotTell.Where(one => one.About.Any(drafts.Contains) && !(isTubeTold && one.Missing == "tube inner diameter")).Select(one => one.CannotTell.Rule.Id).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToList();
        var detail = reply.Cards.SingleOrDefault(card => card.Source.Topic is null)?.Detail ?? "";
        Assert.True(open.TrueForAll(check => detail.Contains(CheckTitles.Of(check) + ":", StringComparison.Ordinal)) && (open.Count > 0) == (detail.Length > 0), $"seed {seed}\ncheck cannot tell: {string.Join(", ", open)}\ncard: {detail}");
        return cards.Count + open.Count;
    }

    private static ValueTask<CheckReport> CheckAsync(RuleSet rules, Story story)
    {
        var inputs = story.Charting.Concat(story.Drafts.Select(draft => Signed(draft, story.Now))).Select((json, at) => new CheckInput(ArrivalOf(json), $"story:{at + 1}")).ToList();
        return new CheckRun(rules, new FhirArrivalReader(Map), new OrderWordsReader(Map), new ChartedText(Map), new MemoryCheckChart())
            .RunAsync(inputs, [], false, CheckSettings.Default, default);
    }

    // What is asked about is one patient, all of whose charting is known; the orders are written when the last of it happened.
    private static async Task<Story> StoryAsync(int seed)
    {
        var history = HistoryGenerator.Next(seed);
        var rendered = HistoryRenderer.Render(history);
        var charting = rendered.Where(json => !IsOrder(json)).ToList();
        var drafts = rendered.Where(IsOrder).Select(Draft).ToList();
        var inputs = charting.Select((json, at) => new CheckInput(ArrivalOf(json), $"story:{at + 1}")).ToList();
        var report = await new CheckRun(ShippedRuleSets.Load("strict-ranges").RuleSet!, new FhirArrivalReader(Map), new OrderWordsReader(Map), new ChartedText(Map), new MemoryCheckChart())
            .RunAsync(inputs, [], false, CheckSettings.Default, default);
        return new Story(history.Patient, charting, drafts, report.AsOf ?? Drafts.Now);
    }

    private static string Draft(string json)
    {
        var order = JsonNode.Parse(json)!;
        order["status"] = "draft";
        order.AsObject().Remove("authoredOn");
        order.AsObject().Remove("meta");
        return order.ToJsonString();
    }

    private static string Signed(string json, DateTimeOffset now)
    {
        var order = JsonNode.Parse(json)!;
        order["status"] = "active";
        order["intent"] = (string?)order["intent"] is "proposal" or "plan" or "directive" ? "order" : (string?)order["intent"];
        order["authoredOn"] = now.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'", System.Globalization.CultureInfo.InvariantCulture);
        return order.ToJsonString();
    }

    private static JsonObject PrefetchOf(Story story)
    {
        // The last version of a row is what a server gives.
        var latest = story.Charting.GroupBy(NameOf, StringComparer.Ordinal).Select(versions => versions.Last()).ToList();
        var prefetch = Drafts.Prefetch(latest.First(json => NameOf(json).StartsWith("Patient/", StringComparison.Ordinal)));
        prefetch["airwayRows"] = Drafts.Bundle(latest.Where(json => !NameOf(json).StartsWith("Patient/", StringComparison.Ordinal)));
        return prefetch;
    }

    private static bool IsOrder(string json) => NameOf(json).StartsWith("ServiceRequest/", StringComparison.Ordinal) || NameOf(json).StartsWith("DeviceRequest/", StringComparison.Ordinal);

    private static string NameOf(string json) => JsonNode.Parse(json) is { } node ? $"{(string?)node["resourceType"]}/{(string?)node["id"]}" : "";

    private static Arrival ArrivalOf(string json)
    {
        var node = JsonNode.Parse(json)!;
        var meta = node["meta"];
        return new Arrival(
            ArrivalKind.Resource, "story", (string?)node["resourceType"], (string?)node["id"], (string?)meta?["versionId"],
            (string?)meta?["lastUpdated"] is { } stamp ? DateTimeOffset.Parse(stamp, System.Globalization.CultureInfo.InvariantCulture) : DateTimeOffset.UnixEpoch, KnownBy.Import, Encoding.UTF8.GetBytes(json));
    }

    private sealed record Story(string Patient, List<string> Charting, List<string> Drafts, DateTimeOffset Now);
}
