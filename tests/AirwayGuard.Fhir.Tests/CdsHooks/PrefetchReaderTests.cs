using System.Text;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>What a server answers in place of a prefetch is read as the prefetch would be.</summary>
public sealed class PrefetchReaderTests
{
    private const string Found = """{"resourceType":"Bundle","entry":[{"resource":{"resourceType":"Device","id":"d1"}},{"search":{"mode":"outcome"},"resource":{"resourceType":"OperationOutcome"}}],"link":[{"relation":"next","url":"p2"}]}""";

    [Theory]
    [InlineData("null")]
    [InlineData(" \r\n\tnull\n")]
    [InlineData("\uFEFFnull")]
    public void Null_is_nothing(string json) => Assert.Same(PrefetchPart.Nothing, Read(json));

    [Theory]
    [InlineData("")]
    [InlineData(" ")]
    [InlineData("nul")]
    [InlineData("nullx")]
    [InlineData("null null")]
    [InlineData("Null")]
    [InlineData("true")]
    [InlineData("\"Device\"")]
    [InlineData("[]")]
    [InlineData("[null]")]
    [InlineData("{}")]
    [InlineData("{\"resourceType\":\"Device\"")]
    [InlineData("{\"resourceType\":\"Device\"} x")]
    [InlineData("{\"resourceType\":\"Device\",\"resourceType\":\"Device\"}")]
    [InlineData("{\"resourceType\":\"OperationOutcome\"}")]
    [InlineData("{\"resourceType\":\"Bundle\",\"entry\":[5]}")]
    [InlineData("<html></html>")]
    [InlineData("\uFEFF")]
    public void What_cannot_be_used_counts_as_not_looked_up(string json) => Assert.Same(PrefetchPart.Failed, Read(json));

    [Fact]
    public void Bytes_that_are_no_UTF_8_count_as_not_looked_up() => Assert.Same(PrefetchPart.Failed, PrefetchReader.Read(new byte[] { 0xFF, (byte)'{', (byte)'}' }));

    [Fact]
    public void Every_beginning_of_an_answer_counts_as_not_looked_up() =>
        Assert.All(Enumerable.Range(0, Found.Length), length => Assert.Same(PrefetchPart.Failed, Read(Found[..length])));

    [Fact]
    public void A_place_begins_where_the_caller_says()
    {
        var part = PrefetchReader.Read(Encoding.UTF8.GetBytes(Found), "prefetch.devices");

        Assert.Equal((PrefetchState.Given, "p2"), (part.State, part.NextPage));
        Assert.Equal("prefetch.devices.entry[0].resource", Assert.Single(part.Resources).Where);
        Assert.Equal("answer", Assert.Single(Read("""{"resourceType":"Device"}""").Resources).Where);
    }

    private static PrefetchPart Read(string json) => PrefetchReader.Read(Encoding.UTF8.GetBytes(json));
}
