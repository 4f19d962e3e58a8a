using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>Codings that are misspelt, that contradict each other, or that no map knows.</summary>
public sealed class CodingsTests
{
    private const string Vacuum = "\"valueQuantity\":{\"value\":220,\"unit\":\"mmHg\"}";

    [Theory]
    [InlineData("vacuum-presure", "vacuum-pressure")]
    [InlineData("Vacuum-Pressure", "vacuum-pressure")]
    [InlineData("vacuum_set", "vacuum-set")]
    [InlineData("birth-date", null)]
    [InlineData("zzz", null)]
    public void A_code_that_our_code_system_does_not_have_is_told_with_its_place_and_the_near_one(string code, string? near)
    {
        var read = Some.Read(Some.Observation(code, Vacuum));

        Assert.Empty(read.Reading.Facts);
        Assert.Equal("AG2121", read.Codes);
        Assert.Equal("Observation/o1", read.Reading.Problems[0].Where);
        Assert.StartsWith($"At code.coding[0] stands {code},", read.Reading.Problems[0].Why, StringComparison.Ordinal);
        Assert.Equal(near is not null, read.Reading.Problems[0].Why.EndsWith($" Did you mean {near}?", StringComparison.Ordinal));
        Assert.True(read.Reading.Readable);
        Assert.Empty(read.Reading.NotMapped);
    }

    [Theory]
    [InlineData("Mrs Miller")]
    [InlineData("")]
    [InlineData("a\\u001b[2J")]
    [InlineData("vacuum-pressure-vacuum-pressure-vacuum-pressure-vacuum-pressure")]
    public void What_is_no_code_is_not_quoted(string code) =>
        Assert.Contains("stands what is no code,", Assert.Single(Some.Read(Some.Observation(code, Vacuum)).Reading.Problems).Why, StringComparison.Ordinal);

    [Fact]
    public void A_misspelt_component_is_told_with_its_number_and_the_rest_is_read()
    {
        var read = Some.Read(Some.Observation("vacuum-pressure", Vacuum, $$$"""
            "component":[{"code":{"text":"x"}},{"code":{"coding":[{"system":"urn:other","code":"y"},{"system":"{{{Some.Own}}}","code":"vacum-reading-method"}]},"valueString":"occluded"}]
            """));

        Assert.Equal("220 mm[Hg]", Read.InWords(read.Only.Value));
        Assert.Equal("AG2121", read.Codes);
        Assert.StartsWith("At component[1].code.coding[1] stands vacum-reading-method,", read.Reading.Problems[0].Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_row_taken_back_or_cancelled_is_not_told_of()
    {
        foreach (var status in (string[])["entered-in-error", "cancelled"])
        {
            var read = Some.Read(Some.Observation("vacuum-presure", Vacuum).Replace("\"final\"", $"\"{status}\"", StringComparison.Ordinal));
            Assert.Empty(read.Codes);
            Assert.Empty(read.Reading.NotMapped);
        }
    }

    [Theory]
    [InlineData("""{"resourceType":"Device","id":"d","property":[{"type":§}]}""", "property[0].type")]
    [InlineData("""{"resourceType":"DeviceMetric","id":"m","type":§}""", "type")]
    [InlineData("""{"resourceType":"Procedure","id":"x","status":"completed","subject":{"reference":"Patient/p1"},"performedDateTime":"2026-03-01T09:00:00Z","code":§}""", "code")]
    [InlineData("""{"resourceType":"ServiceRequest","id":"x","status":"active","intent":"order","subject":{"reference":"Patient/p1"},"code":§}""", "code")]
    public void A_misspelt_code_of_ours_is_told_in_other_resources_too(string resource, string path)
    {
        var read = Some.Read(resource.Replace("§", $$$"""{"coding":[{"system":"{{{Some.Own}}}","code":"suction-pas"}]}""", StringComparison.Ordinal));

        Assert.Equal("AG2121", read.Codes);
        Assert.StartsWith($"At {path}.coding[0] stands suction-pas,", read.Reading.Problems[0].Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("tube-inner-diameter", Some.Own, "catheter-size")]
    [InlineData("catheter-size", "http://loinc.org", "79562-5")]
    [InlineData("catheter-size", Some.Row, "rt-tube-size")]
    public void Codings_that_mean_two_things_make_no_fact(string code, string system, string other)
    {
        foreach (var row in BothWays(code, system, other, "\"valueQuantity\":{\"value\":8,\"unit\":\"mm\"}"))
        {
            var read = Some.Read(row);

            Assert.Empty(read.Reading.Facts);
            Assert.Equal("AG2122", read.Codes);
            Assert.Contains("tube-inner-diameter", read.Reading.Problems[0].Why, StringComparison.Ordinal);
            Assert.Contains("catheter-size", read.Reading.Problems[0].Why, StringComparison.Ordinal);
        }
    }

    // Where one of the two is a setting, that one was charted must not go unsaid: its checks cannot tell.
    [Theory]
    [InlineData("vacuum-pressure", Some.Own, "cuff-pressure")]
    [InlineData("vacuum-pressure", Some.Own, "vacuum-set")]
    [InlineData("cuff-pressure", Some.Row, "rt-wall-vac")]
    public void Codings_of_which_one_is_a_setting_leave_a_setting_that_cannot_be_read(string code, string system, string other)
    {
        foreach (var row in BothWays(code, system, other, Vacuum))
        {
            var read = Some.Read(row);

            Assert.Equal(ValueKind.Unreadable, read.Only.Value.Kind);
            Assert.True(read.Only.Concept == Concepts.VacuumPressure || read.Only.Concept == Concepts.VacuumSet);
            Assert.Equal("AG2122", read.Codes);
        }
    }

    // US Core asks for both LOINC codings of a pulse oximetry, and PoCD adds MDC's.
    [Fact]
    public void Codings_that_mean_one_thing_are_one()
    {
        var read = Some.Read(Some.Observation("spo2", Some.Quantity("96", "%", "%")).Replace(
            "\"coding\":[", """
            "coding":[{"system":"http://loinc.org","code":"59408-5"},{"system":"http://loinc.org","code":"2708-6"},{"system":"urn:iso:std:iso:11073:10101","code":"150456"},{"system":"urn:other","code":"q"},
            """, StringComparison.Ordinal));

        Assert.Equal("96 %", Read.InWords(read.Only.Value));
        Assert.Empty(read.Codes);
    }

    [Fact]
    public void A_property_of_a_device_with_two_meanings_is_not_read()
    {
        var read = Some.Read($$"""
            {"resourceType":"Device","id":"d","property":[{"type":{"coding":[{"system":"{{Some.Own}}","code":"tube-inner-diameter"},{"system":"{{Some.Own}}","code":"tube-length"}]},"valueQuantity":[{"value":8,"unit":"mm"}]}]}
            """);

        Assert.Empty(read.Reading.Facts);
        Assert.Equal("AG2122", read.Codes);
    }

    [Theory]
    [InlineData("urn:oid:1.2.3", "77", "urn:oid:1.2.3|77")]
    [InlineData("1.2.3", "77", "urn:oid:1.2.3|77")]
    [InlineData("", "77", "|77")]
    [InlineData("http://snomed.info/sct", "34606001", null)]
    [InlineData(Some.Row, "rt-gastric-vac", null)]
    [InlineData(Some.Own, "heart-rate", null)]
    public void A_row_that_no_map_knows_is_noted_by_its_code_unless_a_map_leaves_it_out_on_purpose(string system, string code, string? noted)
    {
        var read = Some.Read(Some.Observation(code, Some.Quantity("88", "/min"), system: system));

        Assert.Equal(noted is null ? [] : [noted], read.Reading.NotMapped);
        Assert.Empty(read.Codes);
    }

    [Fact]
    public void A_row_without_code_is_noted_and_a_panel_is_not()
    {
        var coded = Some.Observation("77", Vacuum, system: "urn:x");
        var codeless = coded.Replace("\"code\":{\"coding\":[{\"system\":\"urn:x\",\"code\":\"77\"}]}", "\"code\":{\"text\":\"Suction\"}", StringComparison.Ordinal);

        Assert.Equal([""], Some.Read(codeless).Reading.NotMapped);
        Assert.Empty(Some.Read(Some.Observation("77", "", "\"hasMember\":[{\"reference\":\"Observation/m\"}]", "urn:x")).Reading.NotMapped);
    }

    [Fact]
    public void A_component_that_no_map_knows_is_noted_beside_what_is_read_and_a_panel_is_not()
    {
        const string Two = """
            "component":[{"code":{"coding":[{"system":"urn:x","code":"78"}]},"valueString":"x"},{"code":{"coding":[{"system":"urn:x","code":"79"}]}},
             {"code":{"coding":[{"system":"http://snomed.info/sct","code":"34606001"}]},"valueString":"x"},{"code":{"coding":[{"system":"urn:x","code":"78"}]},"valueInteger":1}]
            """;

        var read = Some.Read(Some.Observation("vacuum-pressure", Vacuum, Two));
        Assert.Equal("220 mm[Hg]", Read.InWords(read.Only.Value));
        Assert.Equal(["urn:x|78", "urn:x|78"], read.Reading.NotMapped);
        Assert.Equal(["urn:x|78", "urn:x|78"], Some.Read(Some.Observation("77", "", Two, "urn:x")).Reading.NotMapped);
        Assert.Equal(["urn:x|78", "urn:x|78", "urn:x|77"], Some.Read(Some.Observation("77", Vacuum, Two, "urn:x")).Reading.NotMapped);
    }

    [Theory]
    [InlineData("Procedure", "completed", "urn:x", "77", "urn:x|77")]
    [InlineData("Procedure", "in-progress", "http://snomed.info/sct", "80146002", "http://snomed.info/sct|80146002")]
    [InlineData("Procedure", "not-done", "urn:x", "77", null)]
    [InlineData("Procedure", "entered-in-error", "urn:x", "77", null)]
    [InlineData("Procedure", "completed", Some.Own, "suction-pass", null)]
    [InlineData("Procedure", "completed", Some.Row, "rt-gastric-vac", null)]
    [InlineData("ServiceRequest", "active", "urn:x", "77", "urn:x|77")]
    [InlineData("ServiceRequest", "on-hold", "urn:x", "77", "urn:x|77")]
    [InlineData("ServiceRequest", "revoked", "urn:x", "77", null)]
    [InlineData("ServiceRequest", "active", Some.Own, "suction-pass", null)]
    public void A_procedure_or_order_in_force_that_no_map_knows_is_noted(string type, string status, string system, string code, string? noted)
    {
        var read = Some.Read($$$"""
            {"resourceType":"{{{type}}}","id":"x","status":"{{{status}}}",{{{(type == "Procedure" ? "\"performedDateTime\"" : "\"intent\":\"order\",\"authoredOn\"")}}}:"2026-03-01T09:00:00Z",
             "subject":{"reference":"Patient/p1"},"code":{"coding":[{"system":"{{{system}}}","code":"{{{code}}}"}]}}
            """);

        Assert.Equal(noted is null ? [] : [noted], read.Reading.NotMapped);
        Assert.Empty(read.Codes);
    }

    [Fact]
    public void An_order_whose_text_names_suction_is_read_whatever_its_code_and_not_noted() => Assert.Empty(Some.Read("""
        {"resourceType":"ServiceRequest","id":"x","status":"active","intent":"order","authoredOn":"2026-03-01T09:00:00Z","subject":{"reference":"Patient/p1"},
         "code":{"text":"Suction airway","coding":[{"system":"urn:x","code":"77"}]}}
        """).Reading.NotMapped);

    private static IEnumerable<string> BothWays(string code, string system, string other, string value)
    {
        var (one, two) = ($$"""{"system":"{{Some.Own}}","code":"{{code}}"}""", $$"""{"system":"{{system}}","code":"{{other}}"}""");
        var row = Some.Observation(code, value);
        yield return row.Replace(one, one + "," + two, StringComparison.Ordinal);
        yield return row.Replace(one, two + "," + one, StringComparison.Ordinal);
    }
}
