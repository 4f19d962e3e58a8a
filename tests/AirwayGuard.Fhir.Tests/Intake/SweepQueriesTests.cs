using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Fhir.Intake;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Intake;

/// <summary>What a sweep asks for, as it stands in an address.</summary>
public sealed class SweepQueriesTests
{
    [Theory]
    [InlineData("a,b", "urn:s|a\\,b")]
    [InlineData("a|b", "urn:s|a\\|b")]
    [InlineData("a$b", "urn:s|a\\$b")]
    [InlineData("a\\b", "urn:s|a\\\\b")]
    [InlineData("a\\,b", "urn:s|a\\\\\\,b")]
    [InlineData("rt-wall-vac", "urn:s|rt-wall-vac")]
    public void A_character_with_a_meaning_in_searches_is_escaped(string code, string token) => Assert.Equal(token, new SweepCode("urn:s", code).Token);

    [Fact]
    public void An_escaped_code_is_escaped_for_the_address_too()
    {
        var query = new SweepQuery("q", "Observation", [new SweepCode("urn:s", "a,b"), new SweepCode("urn:s", "c")]);

        Assert.Equal("Observation?code=urn%3As%7Ca%5C%2Cb,urn%3As%7Cc", query.Criteria);
    }

    [Theory]
    [InlineData("http://loinc.org", "urn:oid:2.16.840.1.113883.6.1", "20077-4")]
    [InlineData("http://snomed.info/sct", "urn:oid:2.16.840.1.113883.6.96", "230040009")]
    [InlineData("urn:iso:std:iso:11073:10101", "urn:oid:2.16.840.1.113883.6.24", "152196")]
    public void A_standard_system_is_asked_for_by_its_address_and_its_OID(string address, string oid, string code)
    {
        var codes = Codes(ShippedMaps.StandardCodes);

        Assert.Contains(new SweepCode(address, code), codes);
        Assert.Contains(new SweepCode(oid, code), codes);
    }

    [Fact]
    public void A_sites_system_is_asked_for_by_every_name_its_NamingSystem_gives()
    {
        var naming = Source("""
            {"resourceType":"NamingSystem","name":"Rows","status":"active","kind":"codesystem","date":"2026-03-01",
             "uniqueId":[{"type":"oid","value":"2.16.840.1.113883.3.9999.1.40"},{"type":"uri","value":"https://site.example.org/rows","preferred":true}]}
            """);
        var codes = Codes(Load(naming, Rows("https://site.example.org/rows", "r1")));

        Assert.Contains(new SweepCode("https://site.example.org/rows", "r1"), codes);
        Assert.Contains(new SweepCode("urn:oid:2.16.840.1.113883.3.9999.1.40", "r1"), codes);
    }

    [Fact]
    public void Every_input_concept_is_asked_for_by_our_own_code_once()
    {
        var codes = Codes(ShippedMaps.StandardCodes);

        foreach (var info in Concepts.Table.ToArray().Where(info => info.IsInput))
        {
            Assert.Single(codes, new SweepCode(CodeSystems.AirwayCare, info.Code));
        }

        Assert.Equal(codes.Count, codes.Distinct().Count());
    }

    [Fact]
    public void However_many_codes_no_address_grows_past_what_proxies_take()
    {
        var queries = SweepQueries.For(Load(Rows("https://site.example.org/rows", [.. Enumerable.Range(0, 500).Select(i => $"row-{i}")])));

        Assert.All(queries, query => Assert.InRange(query.Criteria.Length, 1, 4_000));
        Assert.All(queries.Where(query => query.Type == "Observation"), query => Assert.NotEmpty(query.Codes));
        Assert.Equal(500, queries.SelectMany(query => query.Codes).Count(code => code.System == "https://site.example.org/rows"));
    }

    [Fact]
    public void A_code_added_to_a_site_map_gives_its_question_a_new_cursor_and_leaves_the_others_theirs()
    {
        var before = SweepQueries.For(Load(ShippedMaps.Standard, Rows("https://site.example.org/rows", "r1")));
        var after = SweepQueries.For(Load(ShippedMaps.Standard, Rows("https://site.example.org/rows", "r1", "r0")));
        var asked = Assert.Single(after, query => query.Codes.Any(code => code.Code == "r0"));

        Assert.DoesNotContain(before, query => query.Name == asked.Name);
        Assert.Equal(
            before.Where(query => query.Codes.All(code => code.Code != "r1")).Select(query => query.Name),
            after.Where(query => query != asked).Select(query => query.Name), StringComparer.Ordinal);
        Assert.Equal(before.Select(query => query.Channel), after.Select(query => query.Channel), StringComparer.Ordinal);
    }

    [Fact]
    public void The_order_in_which_a_map_lists_its_codes_changes_no_cursor()
    {
        var one = SweepQueries.For(Load(Rows("https://site.example.org/rows", "a", "b", "c")));
        var other = SweepQueries.For(Load(Rows("https://site.example.org/rows", "c", "a", "b")));

        Assert.Equal(one.Select(query => query.Name), other.Select(query => query.Name), StringComparer.Ordinal);
        Assert.Equal(one.Count, one.Select(query => query.Name).Distinct(StringComparer.Ordinal).Count());
    }

    [Fact]
    public void A_question_is_named_by_type_and_a_short_digest_that_an_address_can_carry()
    {
        var names = SweepQueries.For(ShippedMaps.WithDemoRows).Where(query => query.Type == "Observation").Select(query => query.Name).ToList();

        Assert.NotEmpty(names);
        Assert.All(names, name => Assert.True(name.Length == "Observation-".Length + 12 && name[12..].All(char.IsAsciiHexDigitLower), name));
    }

    private static List<SweepCode> Codes(CodeMap map) => [.. SweepQueries.For(map).SelectMany(query => query.Codes)];

    private static CodeMap Load(params MapSource[] sources)
    {
        var loaded = CodeMap.Load(sources);
        Assert.Empty(loaded.Faults);
        return loaded.Map!;
    }

    private static MapSource Rows(string system, params string[] codes) => Source(
        $$"""
        {"resourceType":"ConceptMap","status":"active","group":[{"source":"{{system}}","target":"{{CodeSystems.AirwayCare}}","element":[
        {{string.Join(',', codes.Select(code => $$"""{"code":"{{code}}","target":[{"code":"spo2","equivalence":"equivalent"}]}"""))}}]}]}
        """);

    private static MapSource Source(string json) => new("site.json", Encoding.UTF8.GetBytes(json));
}
