using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

public sealed class CheckMapTests : IDisposable
{
    private const string Site = "https://lindenhof.example.org/rows";

    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task ASitesMapWiresItsOwnRowsWithTheirDefaultUnits()
    {
        var rows = Rows();

        var without = await CheckAnswer.OfAsync(rows);
        var with = await CheckAnswer.OfAsync(rows, "--map", Map("""{"code":"vac-1","target":[{"code":"vacuum-pressure","equivalence":"equivalent","product":[{"property":"https://airwayguard.example.org/fhir/property/default-unit","value":"kPa"}]}]}"""));

        Assert.Empty(without.Findings);
        Assert.Equal(["vacuum-above-ceiling Observation/own open"], with.Findings);
        Assert.Equal("kPa", DefaultUnitShown(with));
    }

    [Fact]
    public async Task SeveralMapsAreReadInTheirOrder()
    {
        var wired = Map("""{"code":"vac-1","target":[{"code":"vacuum-pressure","equivalence":"equivalent"}]}""");
        var unwired = Map("""{"code":"vac-1","target":[{"equivalence":"unmatched"}]}""", "later.json");

        Assert.Empty((await CheckAnswer.OfAsync(Rows(), "--map", wired, "--map", unwired)).Findings);
        Assert.NotEmpty((await CheckAnswer.OfAsync(Rows(), "--map", unwired, "--map", wired)).Findings);
    }

    [Theory]
    [InlineData("""{"code":"vac-1","target":[{"code":"vacuum-presure","equivalence":"equivalent"}]}""", "AG2203")]
    [InlineData("""{"code":"vac-1"}""", "AG2203")]
    [InlineData("""{"target":[{"code":"vacuum-pressure","equivalence":"equivalent"}]}""", "AG2202")]
    [InlineData("""{"code":"vac-1","target":[{"code":"vacuum-pressure"}]}""", "AG2206")]
    [InlineData("""{"code":"vac-1","target":[{"code":"vacuum-pressure","equivalence":"equivalent","product":[{"property":"https://airwayguard.example.org/fhir/property/default-unit","value":"cm"}]}]}""", "AG2205")]
    [InlineData("""{"code":"v","target":[{"equivalence":"unmatched"}]},{"code":"v","target":[{"equivalence":"unmatched"}]}""", "AG2204")]
    [InlineData("}", "AG2201")]
    public async Task AFaultyMapIsRefusedWithItsPlaceAndNothingIsJudged(string elements, string code)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["check", Rows(), "--map", Map(elements)]);

        Assert.Equal(64, exit);
        Assert.Empty(stdout);
        Assert.StartsWith(code + "  site.json", stderr, StringComparison.Ordinal);
    }

    [Fact]
    public async Task EveryFaultOfAMapIsToldAtOnce()
    {
        var map = Map("""{"code":"a","target":[{"code":"nonsense","equivalence":"equivalent"}]},{"code":"b"},{"code":"c","target":[{"code":"spo2"}]}""");

        var (_, _, stderr) = await InProcessCheck.RunAsync(["check", Rows(), "--map", map]);

        Assert.Equal(["AG2203", "AG2203", "AG2206"], stderr.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line[..6]).ToArray());
    }

    private static string? DefaultUnitShown(CheckAnswer answer) =>
        answer.Report.GetProperty("findings")[0].GetProperty("value").GetProperty("value").GetDecimal() is > 224 and < 226 ? "kPa" : null;

    private string Rows() => _folder.File("rows.ndjson", Given.Adult, Given.Observation("own", """{"value":30}""", "valueQuantity", system: Site, code: "vac-1"));

    private string Map(string elements, string name = "site.json") => _folder.File(
        name, $$$"""{"resourceType":"ConceptMap","group":[{"source":"{{{Site}}}","target":"{{{Given.Row}}}","element":[{{{elements}}}]}]}""");
}
