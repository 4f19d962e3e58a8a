using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>Input that contradicts itself, or that nobody can place, is told under a code and never settled by what stands first.</summary>
public sealed class BadInputToldTests
{
    private const string Kinds = "https://airwayguard.example.org/fhir/CodeSystem/device-kind", Snomed = "http://snomed.info/sct";

    [Theory]
    [InlineData("tracheal-tube", "suction-catheter")]
    [InlineData("suction-catheter", "tracheal-tube")]
    [InlineData("vacuum-regulator", "wall-vacuum-outlet")]
    public void A_device_of_two_kinds_is_of_neither(string one, string other)
    {
        var read = Some.Read(Device((Kinds, one), (Kinds, other)));

        Assert.DoesNotContain(read.Reading.Facts, fact => fact.Concept == Concepts.DeviceKind);
        Assert.Equal("AG2123", read.Codes);
        Assert.DoesNotContain(one, read.Reading.Problems[0].Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_device_of_one_kind_told_twice_or_beside_what_nobody_mapped_is_of_that_kind()
    {
        foreach (var codings in ((string, string)[][])[[(Kinds, "tracheal-tube"), (Kinds, "tracheal-tube")], [("urn:local", "ETT"), (Kinds, "tracheal-tube")], [(Snomed, "129121000"), (Kinds, "tracheostomy-tube")]])
        {
            var read = Some.Read(Device(codings));

            Assert.Equal(codings[^1].Item2, Read.InWords(read.Reading.Facts.Single(fact => fact.Concept == Concepts.DeviceKind).Value));
            Assert.Empty(read.Codes);
        }
    }

    [Theory]
    [InlineData("tracheal-tub", " Did you mean tracheal-tube?")]
    [InlineData("pump", "")]
    public void A_code_of_our_own_device_kinds_that_does_not_exist_is_told(string code, string near)
    {
        var read = Some.Read(Device((Kinds, code)));

        Assert.DoesNotContain(read.Reading.Facts, fact => fact.Concept == Concepts.DeviceKind);
        Assert.Equal("AG2121", read.Codes);
        Assert.Equal($"At type.coding[0] stands {code}, which device-kind does not have.{near}", read.Reading.Problems[0].Why);
    }

    [Fact]
    public void Beside_a_kind_that_is_known_it_is_told_and_the_kind_holds()
    {
        var read = Some.Read(Device((Kinds, "tracheal-tub"), (Snomed, "129121000")));

        Assert.Equal(("tracheostomy-tube", "AG2121"), (Read.InWords(read.Reading.Facts.Single(fact => fact.Concept == Concepts.DeviceKind).Value), read.Codes));
    }

    [Theory]
    [InlineData("\"valueQuantity\":{\"value\":300,\"unit\":\"mmHg\"},\"valueQuantity\":{\"value\":100,\"unit\":\"mmHg\"}", "100 mm[Hg]")]
    [InlineData("\"valueQuantity\":{\"value\":100,\"unit\":\"mmHg\"},\"valueQuantity\":{\"value\":300,\"unit\":\"mmHg\"}", "300 mm[Hg]")]
    public void One_member_given_twice_is_told_and_its_last_is_used(string values, string expected)
    {
        foreach (var body in (string[])[Some.Observation("vacuum-pressure", values), Component(values)])
        {
            var read = Some.Read(body);

            Assert.Equal((expected, "AG2116"), (Read.InWords(read.Only.Value), read.Codes));
        }
    }

    [Theory]
    [InlineData("\"valueQuantity\":{\"value\":300,\"unit\":\"mmHg\"},\"valueString\":\"100 mmHg\"")]
    [InlineData("\"valueString\":\"100 mmHg\",\"valueQuantity\":{\"value\":300,\"unit\":\"mmHg\"}")]
    [InlineData("\"valueInteger\":100,\"valueQuantity\":{\"value\":300,\"unit\":\"mmHg\"}")]
    public void Two_values_of_different_types_are_told_and_neither_is_used(string values)
    {
        foreach (var body in (string[])[Some.Observation("vacuum-pressure", values), Component(values)])
        {
            var read = Some.Read(body);

            Assert.DoesNotContain(read.Reading.Facts, fact => fact.Value.IsNumber);
            Assert.NotEmpty(read.Codes);
        }
    }

    [Fact]
    public void An_order_named_by_a_text_alone_that_is_no_airway_suction_is_counted()
    {
        Assert.Equal([""], Some.Read(Service("{\"text\":\"Clear the tube q2h\"}")).Reading.NotMapped);
        Assert.Empty(Some.Read(Service("{\"text\":\"Suction ETT\"}")).Reading.NotMapped);
        Assert.Empty(Some.Read(Service("{\"text\":\"Clear the tube q2h\"}").Replace("\"active\"", "\"completed\"", StringComparison.Ordinal)).Reading.NotMapped);
    }

    [Theory]
    [InlineData("2026-03-01", "AG2006")]
    [InlineData("2026-03-01T08:00:00", "AG2006")]
    public void An_order_of_equipment_that_was_written_at_no_instant_is_told(string authored, string code)
    {
        foreach (var parameter in (string[])["vacuum-set", "catheter-size"])
        {
            var read = Some.Read($$"""
                {"resourceType":"DeviceRequest","id":"d","status":"active","intent":"order","codeCodeableConcept":{"text":"Regulator"},"subject":{"reference":"Patient/p1"},"authoredOn":"{{authored}}",
                 "parameter":[{"code":{"coding":[{"system":"{{Some.Own}}","code":"{{parameter}}"}]},"valueQuantity":{"value":14,"unit":"Fr"} }]}
                """);

            Assert.Equal((code, false), (read.Codes, read.Reading.Readable));
        }
    }

    [Fact]
    public void What_is_wrong_with_a_birth_date_is_said_as_of_a_date()
    {
        var problem = Some.Read("{\"resourceType\":\"Patient\",\"id\":\"p\",\"birthDate\":\"05.04.1961\"}").Reading.Problems[0];

        Assert.Equal("AG2101", problem.Code.Id);
        Assert.Contains("date", problem.Code.Advice, StringComparison.Ordinal);
    }

    private static string Device(params (string System, string Code)[] codings) => $$"""
        {"resourceType":"Device","id":"d","status":"active","type":{"coding":[{{string.Join(",", codings.Select(one => $$"""{"system":"{{one.System}}","code":"{{one.Code}}"}"""))}}] } }
        """;

    private static string Component(string values) => $$"""
        {"resourceType":"Observation","id":"o1","status":"final","code":{"text":"Suction"},"subject":{"reference":"Patient/p1"},"effectiveDateTime":"2026-03-01T09:55:00Z",
         "component":[{"code":{"coding":[{"system":"{{Some.Own}}","code":"vacuum-pressure"}]},{{values}} }]}
        """;

    private static string Service(string code) => $$"""
        {"resourceType":"ServiceRequest","id":"s","status":"active","intent":"order","code":{{code}},"subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T08:00:00Z"}
        """;
}
