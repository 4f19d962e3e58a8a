using AirwayGuard.Sandbox.Documents;
using AirwayGuard.Sandbox.Search;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Xunit;
using Task = System.Threading.Tasks.Task;

namespace AirwayGuard.Sandbox.Tests;

public sealed class CapabilityTests : IDisposable
{
    private readonly World world = new();

    public void Dispose() => world.Dispose();

    [Fact]
    public async Task The_statement_is_valid_and_says_what_is_served()
    {
        var answer = await world.Get("metadata");

        var statement = (CapabilityStatement)FhirJsonDeserializer.STRICT.DeserializeResource(answer.Text);
        var rest = Assert.Single(statement.Rest);
        var flag = Assert.Single(rest.Resource, resource => resource.Type == "Flag");
        Assert.Equal(World.Base, statement.Implementation!.Url);
        Assert.True(flag.ConditionalCreate);
        Assert.Contains(flag.SearchParam, parameter => parameter.Name == "author");
        Assert.DoesNotContain(flag.SearchParam, parameter => parameter.Name == "status");
        Assert.Contains(rest.Interaction, interaction => interaction.Code == CapabilityStatement.SystemRestfulInteraction.Transaction);
    }

    [Fact]
    public void Every_parameter_declared_has_a_place_to_look_at()
    {
        foreach (var type in ResourceTypes.All)
        {
            foreach (var parameter in ParameterCatalog.For(type).Values)
            {
                Assert.True(parameter.Paths.Count > 0, parameter.Key);
            }
        }
    }

    [Theory]
    [InlineData("_tag=urn:demo:tags|ward", 1)]
    [InlineData("_tag=other", 0)]
    [InlineData("_profile=http://example.org/p", 1)]
    [InlineData("_security=http://example.org/s|N", 1)]
    [InlineData("_source=urn:demo:feed", 1)]
    public async Task Every_type_can_be_searched_by_its_meta(string query, int expected)
    {
        await world.Post("Patient", """{"resourceType":"Patient","meta":{"source":"urn:demo:feed","profile":["http://example.org/p"],"security":[{"system":"http://example.org/s","code":"N"}],"tag":[{"system":"urn:demo:tags","code":"ward"}]},"active":true}""");

        Assert.Equal(expected, (await world.Get($"Patient?{query}", ("Prefer", "handling=strict"))).Total);
    }

    [Theory]
    [InlineData("2026", "2026-01-01T00:00:00Z", "2027-01-01T00:00:00Z")]
    [InlineData("2026-02", "2026-02-01T00:00:00Z", "2026-03-01T00:00:00Z")]
    [InlineData("2026-02-28", "2026-02-28T00:00:00Z", "2026-03-01T00:00:00Z")]
    [InlineData("2026-02-28T10:15+02:00", "2026-02-28T08:15:00Z", "2026-02-28T08:16:00Z")]
    [InlineData("2026-02-28T10:15:01Z", "2026-02-28T10:15:01Z", "2026-02-28T10:15:02Z")]
    [InlineData("2026-02-28T10:15:01.25-01:00", "2026-02-28T11:15:01.25Z", "2026-02-28T11:15:01.26Z")]
    [InlineData("2026-02-28T10:15:01.123456789Z", "2026-02-28T10:15:01.1234567Z", "2026-02-28T10:15:01.1234568Z")]
    public void A_date_stands_for_the_span_of_its_precision(string text, string low, string high)
    {
        Assert.True(DateSpan.TryParse(text, out var span));
        Assert.Equal(DateTimeOffset.Parse(low, System.Globalization.CultureInfo.InvariantCulture).UtcTicks, span.Low);
        Assert.Equal(DateTimeOffset.Parse(high, System.Globalization.CultureInfo.InvariantCulture).UtcTicks, span.High);
    }

    [Theory]
    [InlineData("")]
    [InlineData("26")]
    [InlineData("2026-2-1")]
    [InlineData("2026-02-30")]
    [InlineData("2026-02-28T10")]
    [InlineData("2026-02-28T10:15:01.Z")]
    [InlineData("2026.5")]
    [InlineData("soon")]
    public void What_is_no_date_is_not_read_as_one(string text)
    {
        Assert.False(DateSpan.TryParse(text, out _));
    }
}
