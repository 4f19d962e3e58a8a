using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>Rows that take the place of the one before are kept also where their value cannot be read.</summary>
public sealed class KeptUnreadableTests
{
    private const string Absent = "\"dataAbsentReason\":{\"coding\":[{\"code\":\"unknown\"}]}";

    [Theory]
    [InlineData("tube-inner-diameter", "\"valueString\":\"7\"")]
    [InlineData("tube-inner-diameter", "\"valueQuantity\":{\"value\":0,\"unit\":\"mm\"}")]
    [InlineData("tube-inner-diameter", "\"valueString\":\"Size 8\"")]
    [InlineData("tube-inner-diameter", "\"valueQuantity\":{\"value\":24,\"unit\":\"Fr\"}")]
    [InlineData("inner-cannula-diameter", "\"valueString\":\"6.5\"")]
    [InlineData("inner-cannula-diameter", "\"valueString\":\"size 6\"")]
    [InlineData("inner-cannula-diameter", "\"valueQuantity\":{\"value\":6.5,\"unit\":\"mm\",\"system\":\"http://unitsofmeasure.org\",\"code\":\"cm\"}")]
    [InlineData("inner-cannula-diameter", "\"valueQuantity\":{\"value\":6.5,\"unit\":\"mmHg\"}")]
    [InlineData("inner-cannula-diameter", Absent)]
    [InlineData("inner-cannula-in-place", "\"valueString\":\"in situ\"")]
    [InlineData("inner-cannula-in-place", Absent)]
    [InlineData("intracranial-pressure-monitored", "\"valueString\":\"EVD in situ\"")]
    [InlineData("intracranial-pressure-monitored", Absent)]
    [InlineData("lung-injury", "\"valueString\":\"ARDS\"")]
    [InlineData("bleeding-risk", "\"valueString\":\"low platelets\"")]
    [InlineData("hyperoxygenation-contraindicated", "\"valueString\":\"ask\"")]
    [InlineData("gestational-age-at-birth", "\"valueString\":\"27\"")]
    [InlineData("gestational-age-at-birth", "\"valueString\":\"27+7\"")]
    [InlineData("gestational-age-at-birth", "\"valueString\":\"27+3 or so\"")]
    [InlineData("gestational-age-at-birth", "\"valueString\":\"273\"")]
    [InlineData("gestational-age-at-birth", "\"valueInteger\":27")]
    [InlineData("ventilator-disconnected", "\"valueString\":\"Y\"")]
    [InlineData("cuff-pressure", Absent)]
    [InlineData("pass-count", "\"valueString\":\"three or so\"")]
    [InlineData("insertion-depth", "\"valueQuantity\":{\"value\":30}")]
    [InlineData("insertion-depth", "\"valueQuantity\":{\"value\":-3,\"unit\":\"cm\"}")]
    [InlineData("depth-technique", "\"valueString\":\"to the carina\"")]
    [InlineData("surfactant-given", "\"valueString\":\"first dose\"")]
    [InlineData("cuff-pressure", "\"valueQuantity\":{\"value\":25}")]
    [InlineData("cuff-pressure", "\"valueQuantity\":{\"value\":25,\"unit\":\"mL\"}")]
    [InlineData("cuff-pressure", "\"valueString\":\"minimal leak\"")]
    [InlineData("cuff-pressure", "\"valueRange\":{\"low\":{\"value\":20},\"high\":{\"value\":30}}")]
    [InlineData("suction-reaction", "\"valueString\":\"went blue\"")]
    [InlineData("suction-reaction", "\"valueCodeableConcept\":{\"text\":\"tolerated well\"}")]
    [InlineData("saline-instilled", "\"valueQuantity\":{\"value\":2}")]
    [InlineData("saline-instilled", "\"valueString\":\"some\"")]
    [InlineData("preoxygenation", "\"valueString\":\"given\"")]
    [InlineData("preoxygenation", "\"valueQuantity\":{\"value\":15,\"unit\":\"L/min\"}")]
    [InlineData("preoxygenation", "\"valueQuantity\":{\"value\":101,\"unit\":\"%\"}")]
    [InlineData("suction-use", "\"valueString\":\"the tube or so\"")]
    [InlineData("suction-use", "\"valueInteger\":3")]
    [InlineData("secretion-appearance", "\"valueString\":\"clear-ish, yellow\"")]
    [InlineData("secretion-amount", "\"valueString\":\"a lot\"")]
    [InlineData("secretion-consistency", "\"valueString\":\"thikc\"")]
    public void It_is_kept_as_unreadable_with_a_problem(string concept, string value)
    {
        var read = Some.Read(Some.Observation(concept, value));

        Assert.Equal(ValueKind.Unreadable, read.Only.Value.Kind);
        Assert.Equal(concept, read.Only.Concept.Code);
        Assert.Single(read.Reading.Problems);
        Assert.True(read.Reading.Readable);
    }

    // What is missing is not charted: the checks that ask for it say what is lacking by themselves.
    [Theory]
    [InlineData("insertion-depth")]
    [InlineData("pass-count")]
    [InlineData("suction-reaction")]
    [InlineData("saline-instilled")]
    [InlineData("suction-use")]
    public void One_whose_value_is_missing_is_not_kept(string concept) =>
        Assert.DoesNotContain(Some.Read(Some.Observation(concept, Absent)).Reading.Facts, fact => fact.Value.Kind == ValueKind.Unreadable);

    [Theory]
    [InlineData("27+3")]
    [InlineData("27 + 3")]
    [InlineData("27+3 wk")]
    [InlineData("27+3 weeks")]
    [InlineData("27+3/7")]
    [InlineData("27 3/7")]
    [InlineData("27w3d")]
    [InlineData("27 weeks 3 days")]
    public void Weeks_and_days_of_gestation_are_read_exactly(string text)
    {
        var read = Some.Read(Some.Observation("gestational-age-at-birth", $"\"valueString\":\"{text}\""));

        Assert.Equal("192 d", Read.InWords(read.Only.Value));
        Assert.Empty(read.Codes);
    }

    [Fact]
    public void A_row_that_is_waited_for_is_not_kept() =>
        Assert.Empty(Some.Read(Some.Observation("tube-inner-diameter", "").Replace("\"final\"", "\"registered\"", StringComparison.Ordinal)).Reading.Facts);
}
