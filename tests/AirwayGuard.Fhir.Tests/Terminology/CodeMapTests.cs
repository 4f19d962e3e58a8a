using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Terminology;

public sealed class CodeMapTests
{
    private const string Care = "\"target\":\"https://airwayguard.example.org/fhir/CodeSystem/airway-care\"";

    [Theory]
    [InlineData("http://loinc.org", "79562-5", "tube-inner-diameter")]
    [InlineData("http://loinc.org", "2708-6", "spo2")]
    [InlineData("urn:oid:2.16.840.1.113883.6.1", "20077-4", "peep")]
    [InlineData("2.16.840.1.113883.6.96", "230040009", "suction-pass")]
    [InlineData("urn:iso:std:iso:11073:10101", "152196", "fio2")]
    [InlineData("https://airwayguard.example.org/fhir/CodeSystem/airway-care", "vacuum-pressure", "vacuum-pressure")]
    [InlineData("https://willowmere.example.org/charting/row", "rt-wall-vac", "vacuum-pressure")]
    public void A_known_code_has_its_meaning(string system, string code, string concept)
    {
        Assert.True(ShippedMaps.WithDemoRows.TryRow(Encoding.UTF8.GetBytes(system), Encoding.UTF8.GetBytes(code), out var row));
        Assert.Equal(concept, row.Concept.Code);
    }

    [Theory]
    [InlineData("http://loinc.org", "89086-3")]
    [InlineData("http://snomed.info/sct", "232701003")]
    [InlineData("https://willowmere.example.org/charting/row", "rt-gastric-vac")]
    [InlineData("https://airwayguard.example.org/fhir/CodeSystem/airway-care", "birth-date")]
    [InlineData("", "suction-pass")]
    public void A_code_left_out_or_unknown_has_none(string system, string code) =>
        Assert.False(ShippedMaps.WithDemoRows.TryRow(Encoding.UTF8.GetBytes(system), Encoding.UTF8.GetBytes(code), out _));

    [Fact]
    public void Every_input_concept_has_a_demo_row()
    {
        var rows = ShippedMaps.WithDemoRows.Rows.Where(row => row.System.Contains("willowmere", StringComparison.Ordinal)).ToList();

        foreach (var info in Concepts.Table.ToArray().Where(info => info.IsInput && info.Code != "calibrated-on"))
        {
            Assert.Contains(rows, row => row.Concept.Code == info.Code);
        }
    }

    [Fact]
    public void Shipped_LOINC_and_SNOMED_codes_carry_right_check_digits()
    {
        using var map = JsonDocument.Parse(ShippedMaps.Standard.Json);
        var codes = map.RootElement.GetProperty("group").EnumerateArray()
            .SelectMany(group => group.GetProperty("element").EnumerateArray()
                .Select(element => (System: group.GetProperty("source").GetString(), Code: element.GetProperty("code").GetString()!)))
            .ToList();

        Assert.All(codes.Where(code => code.System == "http://snomed.info/sct"), code => Assert.True(CheckDigits.IsSnomed(code.Code), code.Code));
        Assert.All(
            codes.Where(code => code.System == "http://loinc.org" && !code.Code.StartsWith("LA", StringComparison.Ordinal)),
            code => Assert.True(CheckDigits.IsLoinc(code.Code), code.Code));
        Assert.False(CheckDigits.IsLoinc("3150-6"));
        Assert.False(CheckDigits.IsSnomed("230040008"));
    }

    [Fact]
    public void A_later_map_goes_before_an_earlier_one()
    {
        var site = Map("http://loinc.org", "{\"code\":\"89086-3\",\"target\":[{\"code\":\"tube-inner-diameter\",\"equivalence\":\"equivalent\"}]}");
        var loaded = CodeMap.Load(ShippedMaps.Standard, site);

        Assert.Empty(loaded.Faults);
        Assert.True(loaded.Map!.TryRow("http://loinc.org"u8, "89086-3"u8, out var row));
        Assert.Equal(Concepts.TubeInnerDiameter, row.Concept);
        Assert.False(ShippedMaps.StandardCodes.Sha256 == loaded.Map.Sha256);
        Assert.Equal(64, loaded.Map.Sha256.Length);
    }

    [Fact]
    public void Properties_of_a_row_are_kept()
    {
        var map = CodeMap.Load(Map("1.2.3", """
            {"code":"a","target":[{"code":"pass-duration","equivalence":"inexact","comment":"c","product":[
              {"property":"https://airwayguard.example.org/fhir/property/default-unit","value":"s"},
              {"property":"https://airwayguard.example.org/fhir/property/pass-number","value":"2"},
              {"property":"http://elsewhere.example.org","value":"x"},{"property":"https://hosp.example.org/property/setting","value":"x"}]}]}
            """)).Map!;

        Assert.True(map.TryRow("urn:oid:1.2.3"u8, "a"u8, out var row));
        Assert.Equal(new RowMapping(Concepts.PassDuration, Unit.Second, 2, false, true), row);
        Assert.True(map.TryRow("1.2.3"u8, "a"u8, out _));
    }

    // SNOMED CT 248602007 is an amount (a dictionary of charted items of an intensive care unit maps it so); "none" is also the answer
    // of a row about reactions and of one about the airway, and no sputum ends no airway.
    [Theory]
    [InlineData("secretion-amount", true)]
    [InlineData("suction-reaction", false)]
    [InlineData("airway-type", false)]
    public void No_sputum_is_an_amount_and_neither_a_reaction_nor_an_airway(string concept, bool isRead)
    {
        Assert.True(Concepts.TryFindInput(concept, out var asked));

        Assert.Equal(isRead, ShippedMaps.WithDemoRows.TryAnswer(asked, "http://snomed.info/sct", "248602007", out _));
        Assert.Equal(isRead, ShippedMaps.WithDemoRows.TryAnswerText(asked, "No sputum", out _));
        Assert.True(ShippedMaps.WithDemoRows.TryAnswerText(asked, "none", out _));
    }

    [Theory]
    [InlineData("airway-type", true)]
    [InlineData("secretion-amount", false)]
    [InlineData("suction-reaction", false)]
    public void Extubated_says_that_there_is_no_airway_and_nothing_of_other_rows(string concept, bool isRead)
    {
        Assert.True(Concepts.TryFindInput(concept, out var asked));

        Assert.Equal(isRead, ShippedMaps.WithDemoRows.TryAnswerText(asked, "Extubated", out _));
    }

    // Answers of one code that several concepts list are told apart by the row they depend on: each that ships says which.
    [Fact]
    public void An_answer_that_ships_for_several_concepts_fits_all_of_them_or_names_its_row()
    {
        string[] fitsAll = ["Nil"];
        foreach (var source in (MapSource[])[ShippedMaps.Standard, ShippedMaps.DemoRows])
        {
            using var map = JsonDocument.Parse(source.Json);
            foreach (var element in map.RootElement.GetProperty("group").EnumerateArray()
                .Where(group => group.GetProperty("target").GetString() == CodeSystems.AirwayCareAnswer)
                .SelectMany(group => group.GetProperty("element").EnumerateArray()))
            {
                var target = element.GetProperty("target")[0];
                var concepts = Concepts.Table.ToArray().Count(info => info.IsInput && target.TryGetProperty("code", out var code) && info.Answers.Contains(code.GetString()!, StringComparer.Ordinal));

                Assert.True(
                    concepts <= 1 || target.TryGetProperty("dependsOn", out _) || fitsAll.Contains(element.GetProperty("display").GetString(), StringComparer.Ordinal),
                    element.GetRawText());
            }
        }
    }

    [Theory]
    [InlineData("\"dependsOn\":[{\"property\":\"https://airwayguard.example.org/fhir/property/row\",\"value\":\"secretion-amounts\"}]")]
    [InlineData("\"dependsOn\":[{\"property\":\"https://airwayguard.example.org/fhir/property/row\",\"value\":\"regulator-mode\"}]")]
    [InlineData("\"dependsOn\":[{\"property\":\"https://hosp.example.org/ward\",\"value\":\"icu\"}]")]
    [InlineData("\"dependsOn\":[{}]")]
    public void A_condition_of_an_answer_that_is_not_understood_is_refused(string dependsOn)
    {
        var loaded = CodeMap.Load(new MapSource("site.json", Encoding.UTF8.GetBytes(
            $"{{\"resourceType\":\"ConceptMap\",\"group\":[{{\"source\":\"urn:answers\",\"target\":\"{CodeSystems.AirwayCareAnswer}\",\"element\":[{{\"code\":\"dry\",\"target\":[{{\"code\":\"none\",\"equivalence\":\"equivalent\",{dependsOn}}}]}}]}}]}}")));

        Assert.Equal("AG2207", Assert.Single(loaded.Faults).Code.Id);
    }

    [Theory]
    [InlineData("https://airwayguard.example.org/fhir/property/defualt-unit", "default-unit")]
    [InlineData("https://airwayguard.example.org/fhir/property/default_unit", "default-unit")]
    [InlineData("http://airwayguard.example.org/fhir/property/default-unit", "default-unit")]
    [InlineData("default-unit", "default-unit")]
    [InlineData("https://airwayguard.example.org/fhir/property/settings", "setting")]
    [InlineData("https://airwaygaurd.example.org/fhir/property/setting", "setting")]
    [InlineData("https://airwayguard.example.org/fhir/property/sign", null)]
    [InlineData("", null)]
    public void A_property_that_is_ours_by_its_name_and_not_known_is_refused(string property, string? near)
    {
        var loaded = CodeMap.Load(Map("urn:rows", $"{{\"code\":\"a\",\"target\":[{{\"code\":\"vacuum-pressure\",\"equivalence\":\"equivalent\",\"product\":[{{\"property\":\"{property}\",\"value\":\"kPa\"}}]}}]}}"));

        var fault = Assert.Single(loaded.Faults);
        Assert.Equal("AG2207", fault.Code.Id);
        Assert.Equal(near is not null, fault.Why.EndsWith($"Did you mean https://airwayguard.example.org/fhir/property/{near}?", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("ConceptMap", "retired", false)]
    [InlineData("NamingSystem", "retired", false)]
    [InlineData("ConceptMap", "actve", false)]
    [InlineData("ConceptMap", "active", true)]
    [InlineData("ConceptMap", "draft", true)]
    [InlineData("ConceptMap", "unknown", true)]
    public void A_map_that_was_taken_out_of_use_is_refused(string type, string status, bool isUsed)
    {
        var loaded = CodeMap.Load(new MapSource("site.json", Encoding.UTF8.GetBytes($"{{\"resourceType\":\"{type}\",\"status\":\"{status}\"}}")));

        string[] expected = isUsed ? [] : ["AG2209 site.json status"];
        Assert.Equal(expected, loaded.Faults.Select(fault => $"{fault.Code} {fault.Where}"), StringComparer.Ordinal);
    }

    [Fact]
    public void A_naming_system_makes_two_spellings_one()
    {
        var names = new MapSource("names.json", Encoding.UTF8.GetBytes("""
            {"resourceType":"NamingSystem","uniqueId":[{"type":"oid","value":"1.2.3"},{"type":"uri","value":"https://hosp.example.org/row","preferred":true}]}
            """));
        var map = CodeMap.Load(names, Map("urn:oid:1.2.3", "{\"code\":\"a\",\"target\":[{\"code\":\"spo2\",\"equivalence\":\"equivalent\"}]}")).Map!;

        Assert.True(map.TryRow("https://hosp.example.org/row"u8, "a"u8, out _));
        Assert.True(map.TryRow("urn:oid:1.2.3"u8, "a"u8, out _));
    }

    [Fact]
    public void A_unit_text_may_be_mapped()
    {
        var map = CodeMap.Load(new MapSource("units.json", Encoding.UTF8.GetBytes("""
            {"resourceType":"ConceptMap","group":[{"source":"urn:units","target":"http://unitsofmeasure.org","element":[
              {"code":"torr","target":[{"code":"mm[Hg]","equivalence":"equivalent"}]}]}]}
            """))).Map!;

        Assert.Equal(Unit.MmHg, map.UnitOf("Torr"));
        Assert.Equal(Unit.Unknown, ShippedMaps.StandardCodes.UnitOf("Torr"));
    }

    [Theory]
    [InlineData("not json", "AG2201")]
    [InlineData("{\"resourceType\":\"Patient\"}", "AG2201")]
    [InlineData("{\"resourceType\":\"ConceptMap\",\"group\":[{\"target\":\"x\"}]}", "AG2202")]
    [InlineData("{\"resourceType\":\"ConceptMap\",\"group\":[{\"source\":\"s\",\"target\":\"x\"}]}", "AG2203")]
    [InlineData("{\"resourceType\":\"NamingSystem\",\"uniqueId\":[{\"type\":\"oid\",\"value\":\"1.2\"}]}", "AG2202")]
    public void A_file_that_is_no_map_is_refused(string json, string code)
    {
        var loaded = CodeMap.Load(new MapSource("m.json", Encoding.UTF8.GetBytes(json)));

        Assert.Null(loaded.Map);
        Assert.Equal(code, Assert.Single(loaded.Faults).Code.Id);
    }

    [Theory]
    [InlineData("{\"code\":\"a\",\"target\":[{\"code\":\"vacuum\",\"equivalence\":\"equivalent\"}]}", "AG2203")]
    [InlineData("{\"code\":\"a\",\"target\":[{\"code\":\"birth-date\",\"equivalence\":\"equivalent\"}]}", "AG2203")]
    [InlineData("{\"code\":\"a\",\"target\":[]}", "AG2203")]
    [InlineData("{\"target\":[{\"code\":\"spo2\",\"equivalence\":\"equivalent\"}]}", "AG2202")]
    [InlineData("{\"code\":\"a\",\"target\":[{\"code\":\"spo2\"}]}", "AG2206")]
    [InlineData("{\"code\":\"a\",\"target\":[{\"equivalence\":\"unmatched\"}]},{\"code\":\"a\",\"target\":[{\"equivalence\":\"unmatched\"}]}", "AG2204")]
    [InlineData("{\"code\":\"a\",\"target\":[{\"code\":\"spo2\",\"equivalence\":\"equivalent\",\"product\":[{\"property\":\"https://airwayguard.example.org/fhir/property/default-unit\",\"value\":\"mm[Hg]\"}]}]}", "AG2205")]
    [InlineData("{\"code\":\"a\",\"target\":[{\"code\":\"spo2\",\"equivalence\":\"equivalent\",\"product\":[{\"property\":\"https://airwayguard.example.org/fhir/property/pass-number\",\"value\":\"0\"}]}]}", "AG2207")]
    public void A_faulty_element_is_told_with_its_place(string element, string code)
    {
        var loaded = CodeMap.Load(Map("urn:rows", element));

        var fault = Assert.Single(loaded.Faults);
        Assert.Equal(code, fault.Code.Id);
        Assert.StartsWith("site.json group[0].element[", fault.Where, StringComparison.Ordinal);
    }

    private static MapSource Map(string system, string elements) => new("site.json", Encoding.UTF8.GetBytes(
        $"{{\"resourceType\":\"ConceptMap\",\"group\":[{{\"source\":\"{system}\",{Care},\"element\":[{elements}]}}]}}"));
}
