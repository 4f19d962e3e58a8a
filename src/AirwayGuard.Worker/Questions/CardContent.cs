using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Measures;

namespace AirwayGuard.Worker.Questions;

/// <summary>What is kept of a card, so that what a person says of it can be looked into: what it said, of what, by which facts. Patient data.</summary>
internal static class CardContent
{
    public static string Of(OrderBreach breach, QuestionChart chart)
    {
        var occurrence = breach.Occurrence;
        return new JsonObject
        {
            ["band"] = Wording.Band(occurrence.Band),
            ["limit"] = Wording.Limit(occurrence.Limit),
            ["orders"] = new JsonArray([.. breach.About.Select(order => (JsonNode)chart.NameOf(order))]),
            ["restsOn"] = new JsonArray([.. breach.Facts.Select(fact => (JsonNode)new JsonObject
            {
                ["concept"] = fact.Concept.Code,
                ["from"] = chart.NameOf(fact.Row),
                ["position"] = fact.Id.Arrival < QuestionChart.First ? fact.Id.Arrival.Value : null,
                ["value"] = FactWords.Of(fact.Value),
            })]),
            ["say"] = Wording.Say(breach.Rule, occurrence),
        }.ToJsonString();
    }

    public static string Of(IEnumerable<DerivedCannotTell> open) => new JsonObject
    {
        ["notJudged"] = new JsonArray([.. open.Select(one => (JsonNode)new JsonObject
        {
            ["check"] = one.Rule.Id,
            ["missing"] = new JsonArray([.. one.Missing.Select(missing => (JsonNode)MissingWords.Of(missing))]),
        })]),
    }.ToJsonString();
}
