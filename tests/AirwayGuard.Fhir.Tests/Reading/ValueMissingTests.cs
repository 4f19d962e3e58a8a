using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>A row that holds no value is told, and is nowhere taken for a pass.</summary>
public sealed class ValueMissingTests
{
    private const string Unknown = "\"dataAbsentReason\":{\"coding\":[{\"system\":\"http://terminology.hl7.org/CodeSystem/data-absent-reason\",\"code\":\"unknown\"}]}";

    private static readonly string[] Absences = [Unknown, "\"dataAbsentReason\":{\"text\":\"gauge broken\"}", "\"dataAbsentReason\":{}", ""];

    // As an unreadable value ("see note") of the same rows: without a fact it would look as if nothing had been charted.
    [Theory]
    [InlineData("vacuum-pressure")]
    [InlineData("vacuum-set")]
    [InlineData("regulator-mode")]
    public void A_setting_without_value_is_kept_as_unreadable_with_a_problem(string concept)
    {
        foreach (var absence in Absences)
        {
            var read = Some.Read(Some.Observation(concept, absence));

            Assert.Equal(ValueKind.Unreadable, read.Only.Value.Kind);
            Assert.Equal("AG2120", read.Codes);
            Assert.Equal("Observation/o1", read.Reading.Problems[0].Where);
            Assert.Contains(concept, read.Reading.Problems[0].Why, StringComparison.Ordinal);
            Assert.True(read.Reading.Readable);
        }
    }

    [Theory]
    [InlineData("catheter-size")]
    [InlineData("pass-duration")]
    [InlineData("spo2")]
    [InlineData("suction-indication")]
    [InlineData("preoxygenation")]
    [InlineData("calibrated-on")]
    [InlineData("full-line-vacuum")]
    public void Any_other_row_without_value_is_a_problem_and_no_fact(string concept)
    {
        foreach (var absence in Absences)
        {
            var read = Some.Read(Some.Observation(concept, absence));

            Assert.Empty(read.Reading.Facts);
            Assert.Equal("AG2120", read.Codes);
            Assert.DoesNotContain("gauge", read.Reading.Problems[0].Why, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_pass_row_that_gives_a_reason_instead_of_a_value_is_no_pass()
    {
        var read = Some.Read(Some.Observation("suction-pass", Unknown));

        Assert.Empty(read.Reading.Facts);
        Assert.Equal("AG2120", read.Codes);
    }

    [Fact]
    public void Not_performed_is_charted_and_no_missing_value()
    {
        var read = Some.Read(Some.Observation("preoxygenation", "\"dataAbsentReason\":{\"coding\":[{\"code\":\"not-performed\"}]}"));

        Assert.Equal(ValueKind.NotPerformed, read.Only.Value.Kind);
        Assert.Empty(read.Codes);
    }

    [Fact]
    public void A_component_without_value_is_told_too()
    {
        var read = Some.Read(Some.Observation("vacuum-pressure", Some.Quantity("120", "mmHg"), $$$"""
            "component":[{"code":{"coding":[{"system":"{{{Some.Own}}}","code":"vacuum-reading-method"}]}}]
            """));

        Assert.Equal("120 mm[Hg]", Read.InWords(read.Only.Value));
        Assert.Equal("AG2120", read.Codes);
    }

    // R4: an Observation that groups others in component or hasMember has no value of its own.
    [Theory]
    [InlineData("\"hasMember\":[{\"reference\":\"Observation/m\"}]")]
    [InlineData("\"component\":[{\"code\":{\"text\":\"other\"},\"valueString\":\"x\"}]")]
    public void A_panel_needs_no_value_of_its_own(string groups)
    {
        Assert.Empty(Some.Read(Some.Observation("secretion-appearance", "", groups)).Codes);
        Assert.Equal("AG2120", Some.Read(Some.Observation("secretion-appearance", Unknown, groups)).Codes);
    }

    // R4: "registered" says that the result is not there yet.
    [Fact]
    public void A_registered_row_is_waited_for()
    {
        var registered = Some.Observation("vacuum-pressure", "").Replace("\"final\"", "\"registered\"", StringComparison.Ordinal);

        Assert.Empty(Some.Read(registered).Reading.Facts);
        Assert.Empty(Some.Read(registered).Codes);
        Assert.Empty(Some.Read(registered.Replace("registered", "cancelled", StringComparison.Ordinal)).Codes);
    }

    [Fact]
    public void A_devices_property_and_an_orders_parameter_without_value_are_told()
    {
        var device = Some.Read($$$"""
            {"resourceType":"Device","id":"d","property":[{"type":{"coding":[{"system":"{{{Some.Own}}}","code":"tube-inner-diameter"}]}}]}
            """);
        var order = Some.Read($$$"""
            {"resourceType":"DeviceRequest","id":"r","status":"active","intent":"order","subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T09:00:00Z",
             "parameter":[{"code":{"coding":[{"system":"{{{Some.Own}}}","code":"catheter-size"}]}}]}
            """);

        Assert.Equal("AG2120", device.Codes);
        Assert.Equal("AG2120", order.Codes);
    }
}
