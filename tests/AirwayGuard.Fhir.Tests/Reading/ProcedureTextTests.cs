using AirwayGuard.Core.Charting;
using Xunit;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>A Procedure that no code names: its text is a pass of the airway, suction of another part, or told as unclear; never dropped without a word.</summary>
public sealed class ProcedureTextTests
{
    [Theory]
    [InlineData("Endotracheal suction")]
    [InlineData("Suctioning of tracheostomy")]
    [InlineData("ETT suctioned")]
    [InlineData("In-line tracheal suctioning, 2 passes")]
    [InlineData("Nasotracheal suction")]
    public void Suction_of_the_airway_is_a_pass(string text)
    {
        var read = Some.Read(Procedure($"\"text\":\"{text}\""));

        Assert.Equal(Concepts.SuctionPass, read.Only.Concept);
        Assert.Empty(read.Codes);
    }

    [Theory]
    [InlineData("Suction")]
    [InlineData("Suctioning performed")]
    [InlineData("Oral and endotracheal suction")]
    [InlineData("Endotracheal suction catheter changed")]
    [InlineData("No endotracheal suction needed")]
    [InlineData("Endotracheal suction teaching")]
    public void What_does_not_plainly_say_so_is_told(string text)
    {
        var read = Some.Read(Procedure($"\"text\":\"{text}\""));

        Assert.Empty(read.Reading.Facts);
        Assert.Equal("AG2131", read.Codes);
        Assert.True(read.Reading.Readable);
        Assert.DoesNotContain(text, string.Join(' ', read.Reading.Problems.Select(one => one.Why)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"text\":\"Nasopharyngeal suction\"")]
    [InlineData("\"text\":\"Oral suction\"")]
    [InlineData("\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"232701003\"}]")]
    [InlineData("\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"232701003\"}],\"text\":\"Endotracheal suction\"")]
    public void Of_suction_of_another_part_only_whose_it_was_is_kept(string code)
    {
        var read = Some.Read(Procedure(code));

        Assert.Empty(read.Reading.Facts);
        Assert.Equal(LinkKind.DoneTo, Assert.Single(read.Reading.Links).Kind);
        Assert.Empty(read.Codes);
    }

    [Theory]
    [InlineData("\"text\":\"Tracheostomy change\"")]
    [InlineData("\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"112798008\"}],\"text\":\"Endotracheal suction\"")]
    public void Other_Procedures_are_of_no_interest(string code)
    {
        var read = Some.Read(Procedure(code));

        Assert.Empty(read.Reading.Facts);
        Assert.Empty(read.Reading.Links);
        Assert.Empty(read.Codes);
    }

    [Fact]
    public void A_local_code_that_nobody_mapped_leaves_it_to_the_text() => Assert.Equal(
        Concepts.SuctionPass, Some.Read(Procedure("\"coding\":[{\"system\":\"urn:local\",\"code\":\"9\"}],\"text\":\"Endotracheal suction\"")).Only.Concept);

    private static string Procedure(string code) =>
        $$$"""{"resourceType":"Procedure","id":"x","status":"completed","code":{{{{code}}}},"subject":{"reference":"Patient/p1"},"performedDateTime":"2026-03-01T10:00:00Z"}""";
}
