using System.Text.Json.Nodes;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.TestKit.Pipeline;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Xunit;

namespace AirwayGuard.Validation.Tests;

/// <summary>An order that a card suggests is valid R4 by the definitions of 4.0.1 (reference validator), and is the draft but for the one element.</summary>
public sealed class CorrectedOrdersTests(Specification specification)
{
    public static TheoryData<string> Names => [.. Orders.Keys];

    private static readonly Dictionary<string, string> Orders = new(StringComparer.Ordinal)
    {
        ["vacuum"] = Drafts.Equipment(vacuum: 220),
        ["vacuum in kPa"] = Drafts.Equipment(vacuum: 29.3m, unit: "kPa"),
        ["vacuum as a range"] = Drafts.Equipment(parameter: Drafts.Parameter(
            "vacuum-set", new JsonObject { ["low"] = Pressure(80), ["high"] = Pressure(200) }, "valueRange")),
        ["catheter"] = Drafts.Equipment(french: 16),
        ["depth"] = Drafts.Equipment(vacuum: 100, parameter: Drafts.Parameter("depth-technique", Answer("deep"), "valueCodeableConcept")),
        ["saline"] = Drafts.Equipment(vacuum: 100, parameter: Drafts.Parameter("saline-instilled", true, "valueBoolean")),
    };

    [Theory]
    [MemberData(nameof(Names))]
    public async System.Threading.Tasks.Task WhatACardSuggests_IsValidR4_AndDiffersInOneElement(string name)
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(born: name == "depth" ? "2021-05-02" : "1961-05-02"), Drafts.Airway(), Drafts.Tube(name == "depth" ? 5.0m : 8.0m));

        var reply = await bench.AskAsync(QuestionBench.Sign("p1", [Orders[name]]));

        var suggestion = Assert.Single(Assert.Single(reply.Cards).Suggestions);
        var json = System.Text.Encoding.UTF8.GetString(suggestion.Resource.Span);
        Assert.Empty(specification.ErrorsOf(FhirJsonDeserializer.STRICT.DeserializeResource(json)));
        Assert.Single(Differences(JsonNode.Parse(Orders[name])!, JsonNode.Parse(json)!).Select(Element).Distinct(StringComparer.Ordinal));
        Assert.DoesNotContain((await bench.AskAsync(QuestionBench.Sign("p1", [json]))).Cards, card => card.Source.Topic is not null);
    }

    // The value of one parameter, however many members of it say the same.
    private static string Element(string path) => path[..(path.IndexOf(".value", StringComparison.Ordinal) + 1)];

    private static IEnumerable<string> Differences(JsonNode? one, JsonNode? other, string path = "$")
    {
        if (one is JsonObject members && other is JsonObject others)
        {
            return members.Select(member => member.Key).Union(others.Select(member => member.Key), StringComparer.Ordinal).SelectMany(key => Differences(members[key], others[key], $"{path}.{key}"));
        }

        if (one is JsonArray items && other is JsonArray found && items.Count == found.Count)
        {
            return Enumerable.Range(0, items.Count).SelectMany(i => Differences(items[i], found[i], $"{path}[{i}]"));
        }

        return JsonNode.DeepEquals(one, other) ? [] : [path];
    }

    private static JsonObject Pressure(decimal value) => new() { ["value"] = value, ["unit"] = "mmHg", ["system"] = "http://unitsofmeasure.org", ["code"] = "mm[Hg]" };

    private static JsonObject Answer(string code) =>
        new() { ["coding"] = new JsonArray(new JsonObject { ["system"] = "https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer", ["code"] = code }) };
}
