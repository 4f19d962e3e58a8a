using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>One answer with codings that stand for several answers: nothing depends on their order.</summary>
public sealed class AnswerCodingsTests
{
    private const string Answer = CodeSystems.AirwayCareAnswer;
    private const string Site = "urn:site:answer";

    private static readonly FhirArrivalReader WithSiteAnswers = new(CodeMap.Load([ShippedMaps.Standard, new MapSource("site.json", Encoding.UTF8.GetBytes($$"""
        {"resourceType":"ConceptMap","status":"active","group":[{"source":"{{Site}}","target":"{{Answer}}","element":[
          {"code":"reg","target":[{"code":"regulated","equivalence":"equivalent"}]},
          {"code":"none-seen","target":[{"code":"none","equivalence":"equivalent"}]}]}]}
        """))]).Map!);

    public static TheoryData<string, string, string> Pairs()
    {
        var pairs = new TheoryData<string, string, string>();
        foreach (var info in Concepts.Table.ToArray().Where(info => info is { IsInput: true, Dimension: Dimension.Code }))
        {
            foreach (var one in info.Answers)
            {
                foreach (var other in info.Answers.Where(other => other != one))
                {
                    pairs.Add(info.Code, one, other);
                }
            }
        }

        return pairs;
    }

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Two_answers_in_one_are_all_kept_or_told_and_never_the_first_alone(string concept, string one, string other)
    {
        var read = Some.Read(Row(concept, (Answer, one), (Answer, other)));
        var turned = Some.Read(Row(concept, (Answer, other), (Answer, one)));

        Assert.Equal(read.Lines, turned.Lines);
        Assert.True(read.Reading.Readable);
        var said = read.Reading.Facts.Select(fact => Read.InWords(fact.Value)).ToList();
        Assert.Equal(Expected(concept, one, other), said.Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.Equal(said.Count > 0 && !said.Contains("unknown") && !said.Contains("unreadable") && one != "none" && other != "none" ? "" : "AG2123", read.Codes);
    }

    [Fact]
    public void Every_fact_of_a_row_has_a_number_of_its_own_and_the_words_of_its_part()
    {
        var body = $$"""
            {"resourceType":"Observation","id":"o1","status":"final","code":{"text":"Suction"},"subject":{"reference":"Patient/p1"},"effectiveDateTime":"2026-03-01T09:55:00Z",
             "component":[{"code":{"coding":[{"system":"{{Some.Own}}","code":"secretion-appearance"}]},"valueCodeableConcept":{{Concept((Answer, "white"), (Answer, "blood-streaked"), (Answer, "mucoid"))}}},
              {"code":{"coding":[{"system":"{{Some.Own}}","code":"suction-reaction"}]},"valueCodeableConcept":{{Concept((Answer, "desaturation"), (Answer, "bradycardia"))}}}]}
            """;
        var read = Some.Read(body);

        Assert.Empty(read.Codes);
        Assert.Equal(["blood-streaked", "mucoid", "white", "bradycardia", "desaturation"], read.Reading.Facts.Select(fact => Read.InWords(fact.Value)), StringComparer.Ordinal);
        Assert.Equal(5, read.Reading.Facts.Select(fact => fact.Id.Ordinal).Distinct().Count());
        var words = read.Reading.Facts.Select(fact => new ChartedText().ValueOf(Encoding.UTF8.GetBytes(body), fact.Id.Ordinal)).ToList();
        Assert.Equal([.. Enumerable.Repeat("blood-streaked / mucoid / white", 3), .. Enumerable.Repeat("bradycardia / desaturation", 2)], words);
    }

    // The ledger keeps one fact under a number, concept and time.
    [Fact]
    public void A_row_of_more_parts_than_are_numbered_keeps_the_worst_answer_alone()
    {
        var parts = string.Join(",", Enumerable.Range(0, 1100).Select(_ => $$"""
            {"code":{"coding":[{"system":"{{Some.Own}}","code":"secretion-appearance"}]},"valueCodeableConcept":{{Concept((Answer, "white"), (Answer, "frank-blood"))}}}
            """));
        var read = Some.Read($$"""
            {"resourceType":"Observation","id":"o1","status":"final","code":{"text":"Suction"},"subject":{"reference":"Patient/p1"},"effectiveDateTime":"2026-03-01T09:55:00Z","component":[{{parts}}]}
            """);

        Assert.All(read.Reading.Facts, fact => Assert.Equal("frank-blood", Read.InWords(fact.Value)));
        Assert.Equal(1100, read.Reading.Facts.Select(fact => fact.Id.Ordinal).Distinct().Count());
        Assert.Equal(1100, read.Reading.Facts.Count);
    }

    [Theory]
    [InlineData("regulator-mode", "reg", "full-line", "unreadable", "AG2123")]
    [InlineData("regulator-mode", "reg", "regulated", "regulated", "")]
    [InlineData("regulator-mode", "unheard-of", "full-line", "full-line", "")]
    [InlineData("suction-reaction", "none-seen", "bradycardia", "bradycardia", "AG2123")]
    [InlineData("suction-reaction", "none-seen", "none", "none", "")]
    public void A_sites_own_coding_counts_as_ours_does(string concept, string site, string ours, string expected, string codes)
    {
        foreach (var row in (string[])[Row(concept, (Site, site), (Answer, ours)), Row(concept, (Answer, ours), (Site, site))])
        {
            var read = Some.Read(row, WithSiteAnswers);

            Assert.Equal((expected, codes), (Read.InWords(read.Only.Value), read.Codes));
        }
    }

    [Theory]
    [InlineData("inner-cannula-in-place")]
    [InlineData("saline-instilled")]
    [InlineData("preoxygenation")]
    [InlineData("ventilator-disconnected")]
    public void Yes_and_no_in_one_answer_are_neither(string concept)
    {
        foreach (var value in (string[])[Concept(("urn:yn", "yes"), ("urn:yn", "no")), Concept(("urn:yn", "no"), ("urn:yn", "yes")), """{"text":"No","coding":[{"code":"yes"}]}"""])
        {
            var read = Some.Read(Some.Observation(concept, $"\"valueCodeableConcept\":{value}"));

            Assert.All(read.Reading.Facts, fact => Assert.Equal(FactValue.Unreadable, fact.Value));
            Assert.Equal("AG2123", read.Codes);
        }

        var agreed = Some.Read(Some.Observation(concept, $"\"valueCodeableConcept\":{Concept(("urn:yn", "yes"), ("urn:other", "true"))}"));
        Assert.Equal(("yes", ""), (Read.InWords(agreed.Only.Value), agreed.Codes));
    }

    [Fact]
    public void A_property_of_a_device_with_two_codes_says_neither()
    {
        foreach (var (one, other) in ((string, string)[])[("gastric", "airway"), ("airway", "gastric")])
        {
            foreach (var codes in (string[])[$"{Concept((Answer, one), (Answer, other))}", $"{Concept((Answer, one))},{Concept((Answer, other))}"])
            {
                var read = Some.Read($$$"""
                    {"resourceType":"Device","id":"d","property":[{"type":{"coding":[{"system":"{{{Some.Own}}}","code":"suction-use"}]},"valueCode":[{{{codes}}}]}]}
                    """);

                Assert.Equal(FactValue.Unreadable, read.Only.Value);
                Assert.Equal("AG2123", read.Codes);
            }
        }
    }

    [Theory]
    [InlineData("regulator-mode", "regulated", "full-line", "order-unread=text regulator-mode=unreadable")]
    [InlineData("suction-system", "open", "closed", "order-unread=text")]
    public void A_parameter_of_an_order_that_says_two_things_is_not_read(string concept, string one, string other, string expected)
    {
        foreach (var value in (string[])[Concept((Answer, one), (Answer, other)), Concept((Answer, other), (Answer, one))])
        {
            var read = Some.Read($$$"""
                {"resourceType":"DeviceRequest","id":"d","status":"active","intent":"order","codeCodeableConcept":{"text":"Suction regulator"},"subject":{"reference":"Patient/p1"},
                 "authoredOn":"2026-03-01T08:00:00Z","parameter":[{"code":{"coding":[{"system":"{{{Some.Own}}}","code":"{{{concept}}}"}]},"valueCodeableConcept":{{{value}}}}]}
                """);

            Assert.Equal(expected, Said(read));
            Assert.Equal("AG2123", read.Codes);
        }
    }

    [Fact]
    public void A_detail_of_an_order_that_says_two_things_is_not_read_and_reasons_are_all_read()
    {
        foreach (var detail in (string[])[Concept((Answer, "shallow"), (Answer, "deep"), (Answer, "closed")), Concept((Answer, "deep"), (Answer, "closed"), (Answer, "shallow"))])
        {
            var read = Some.Read($$$"""
                {"resourceType":"ServiceRequest","id":"s","status":"active","intent":"order","code":{"text":"Suction"},"subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T08:00:00Z",
                 "orderDetail":[{{{detail}}}],"reasonCode":[{{{Concept((Answer, "emergency"))}}},{{{Concept((Answer, "bleeding-risk"), (Answer, "emergency"))}}}]}
                """);

            Assert.Equal("allowance-reason=bleeding-risk allowance-reason=emergency depth-technique=unreadable order-unread=text suction-system=closed", Said(read));
            Assert.Equal("AG2123", read.Codes);
            Assert.Equal(2, read.Reading.Facts.Where(fact => fact.Concept == Concepts.AllowanceReason).Select(fact => fact.Id.Ordinal).Distinct().Count());
        }
    }

    // Several kept where several may be true, a doubtful mode as unreadable, a method nobody is sure of as unknown, else nothing.
    private static IEnumerable<string> Expected(string concept, string one, string other) => concept switch
    {
        "secretion-appearance" or "suction-indication" or "allowance-reason" => ((string[])[one, other]).Order(StringComparer.Ordinal),
        "suction-reaction" => ((string[])[one, other]).Where(answer => answer != "none").Order(StringComparer.Ordinal),
        "vacuum-reading-method" => ["unknown"],
        "regulator-mode" or "depth-technique" or "suction-use" or "secretion-amount" or "secretion-consistency" => ["unreadable"],
        _ => [],
    };

    private static string Said(Read read) => string.Join(" ", read.Reading.Facts
        .Where(fact => fact.Concept != Concepts.OrderStatus && fact.Concept != Concepts.OrderIntent)
        .Select(fact => $"{fact.Concept.Code}={Read.InWords(fact.Value)}").Order(StringComparer.Ordinal));

    private static string Row(string concept, params (string System, string Code)[] codings) =>
        Some.Observation(concept, $"\"valueCodeableConcept\":{Concept(codings)}");

    private static string Concept(params (string System, string Code)[] codings) =>
        $$"""{"coding":[{{string.Join(",", codings.Select(coding => $$"""{"system":"{{coding.System}}","code":"{{coding.Code}}"}"""))}}]}""";
}
