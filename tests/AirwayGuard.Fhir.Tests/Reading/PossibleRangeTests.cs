using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>A number that no patient can have is told and not used; the ends of each range are still values. All ends: common practice, no source.</summary>
public sealed class PossibleRangeTests
{
    [Theory]
    [InlineData("tube-inner-diameter", "7.5", "cm")]
    [InlineData("tube-inner-diameter", "80", "mm")]
    [InlineData("tube-inner-diameter", "0.8", "mm")]
    [InlineData("tube-inner-diameter", "15.1", "mm")]
    [InlineData("inner-cannula-diameter", "70", "mm")]
    [InlineData("inner-cannula-diameter", "0.7", "mm")]
    [InlineData("body-weight", "1200", "kg")]
    [InlineData("body-weight", "0.19", "kg")]
    [InlineData("body-weight", "3.2", "g")]
    [InlineData("body-weight", "9000000000000000000", "g")]
    [InlineData("spo2", "960", "%")]
    [InlineData("spo2", "100.5", null)]
    [InlineData("heart-rate", "401", "/min")]
    [InlineData("peep", "61", "cm[H2O]")]
    [InlineData("peep", "50", "mm[Hg]")]
    [InlineData("catheter-size", "140", "[Ch]")]
    [InlineData("catheter-size", "2", "[Ch]")]
    [InlineData("pass-count", "2.5", "{count}")]
    [InlineData("gestational-age-at-birth", "27", "d")]
    [InlineData("gestational-age-at-birth", "310", "wk")]
    public void A_number_that_cannot_be_is_told_without_it_and_makes_no_fact_that_can_be_used(string concept, string number, string? unit)
    {
        var read = Some.Read(Some.Observation(concept, Some.Quantity(number, unit, unit)));

        Assert.All(read.Reading.Facts, fact => Assert.Equal(FactValue.Unreadable, fact.Value));
        Assert.Equal("AG2117", read.Codes);
        Assert.DoesNotContain(number, read.Reading.Problems[0].Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("tube-inner-diameter", "1", "mm")]
    [InlineData("tube-inner-diameter", "15", "mm")]
    [InlineData("tube-inner-diameter", "0.75", "cm")]
    [InlineData("inner-cannula-diameter", "0", "mm")]
    [InlineData("inner-cannula-diameter", "10", "mm")]
    [InlineData("body-weight", "212", "g")]
    [InlineData("body-weight", "635", "kg")]
    [InlineData("spo2", "100", "%")]
    [InlineData("spo2", "0.96", "1")]
    [InlineData("heart-rate", "0", "/min")]
    [InlineData("heart-rate", "400", "/min")]
    [InlineData("peep", "60", "cm[H2O]")]
    [InlineData("peep", "0", "cm[H2O]")]
    [InlineData("catheter-size", "3", "[Ch]")]
    [InlineData("catheter-size", "36", "[Ch]")]
    [InlineData("pass-count", "2.0", "{count}")]
    [InlineData("pass-count", "0", "{count}")]
    [InlineData("gestational-age-at-birth", "140", "d")]
    [InlineData("gestational-age-at-birth", "45", "wk")]
    [InlineData("pass-duration", "0.5", "s")]
    public void A_rare_number_is_read(string concept, string number, string? unit)
    {
        var read = Some.Read(Some.Observation(concept, Some.Quantity(number, unit, unit)));

        Assert.True(read.Only.Value.IsNumber);
        Assert.Empty(read.Codes);
    }

    // Whether there was a pass is not in doubt: how long it took is.
    [Theory]
    [InlineData("0")]
    [InlineData("-12")]
    public void A_duration_that_cannot_be_stays_as_unreadable(string number)
    {
        var read = Some.Read(Some.Observation("pass-duration", Some.Quantity(number, "s", "s")));

        Assert.Equal((ValueKind.Unreadable, "AG2117"), (read.Only.Value.Kind, read.Codes));
    }

    [Theory]
    [InlineData("tube-inner-diameter", "75 mm")]
    [InlineData("catheter-size", "FG 140")]
    public void A_text_is_held_to_the_same(string concept, string text) =>
        Assert.Equal("AG2117", Some.Read(Some.Observation(concept, $"\"valueString\":\"{text}\"")).Codes);

    [Fact]
    public void A_size_ordered_that_cannot_be_is_not_read()
    {
        var read = Some.Read($$$"""
            {"resourceType":"DeviceRequest","id":"d","status":"active","intent":"order","codeCodeableConcept":{"text":"Suction catheter"},"subject":{"reference":"Patient/p1"},
             "authoredOn":"2026-03-01T08:00:00Z","parameter":[{"code":{"coding":[{"system":"{{{Some.Own}}}","code":"catheter-size"}]},"valueQuantity":{"value":140,"unit":"Fr"}}]}
            """);

        Assert.Equal("AG2117", read.Codes);
        Assert.Contains(read.Reading.Facts, fact => fact.Concept.Code == "order-unread");
        Assert.DoesNotContain(read.Reading.Facts, fact => fact.Concept.Code == "catheter-size");
    }
}
