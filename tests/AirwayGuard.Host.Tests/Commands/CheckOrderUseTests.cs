using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>An order that says of itself that another suction is meant is no order of the airway's, whichever of its parts says so.</summary>
public sealed class CheckOrderUseTests : IDisposable
{
    private const string Answers = "https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer";
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("gastric", 0, "")]
    [InlineData("airway", 1, "")]
    [InlineData("orla", 1, "ordered-vacuum-above-ceiling ServiceRequest/sr: what is to be suctioned")]
    public async Task AParameterOfItsEquipmentSaysIt(string use, int judged, string open)
    {
        var answer = await CheckAsync(Service("230040009"), Equipment(Parameter("suction-use", Coded(use))));

        Assert.Equal(judged, answer.Report.GetProperty("judged").GetProperty("orders").GetInt32());
        Assert.Equal(judged, answer.Report.GetProperty("orders").GetArrayLength());
        Assert.Equal(use == "airway", answer.Findings.Any(one => one.StartsWith("ordered-vacuum-above-ceiling ", StringComparison.Ordinal)));
        Assert.Equal(open, string.Join(';', answer.CannotTell.Where(one => one.StartsWith("ordered-vacuum-above-ceiling ", StringComparison.Ordinal))));
    }

    [Theory]
    [InlineData("", 0)]
    [InlineData(",\"doNotPerform\":true", 0)]
    public async Task ADetailSaysIt(string more, int judged)
    {
        var answer = await CheckAsync(
            Service("230040009", $$""","orderDetail":[{{Coded("gastric")}}]{{more}}"""),
            Given.Observation("s", "true", "valueBoolean", code: "suction-pass"));

        Assert.Equal(judged, answer.Report.GetProperty("judged").GetProperty("orders").GetInt32());
        Assert.DoesNotContain(answer.Findings, one => one.StartsWith("suctioned-despite-order-not-to ", StringComparison.Ordinal));
    }

    [Fact]
    public async Task TwoUsesAreToldAsNotReadAndNothingIsSaidOfTheVacuum()
    {
        var answer = await CheckAsync(Service("230040009"), Equipment(Parameter("suction-use", Coded("airway")), Parameter("suction-use", Coded("gastric"))));

        Assert.Contains("ordered-vacuum-above-ceiling ServiceRequest/sr: what is to be suctioned", answer.CannotTell, StringComparer.Ordinal);
        Assert.Equal(["order-not-machine-readable ServiceRequest/sr open"], answer.Findings);
    }

    [Theory]
    [InlineData("\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"232701003\"}]")]
    [InlineData("\"text\":\"Gastric suction\"")]
    public async Task EquipmentForAnOrderOfAnotherSuctionIsNoneOfTheAirways(string code)
    {
        var service = Service("230040009").Replace("\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"230040009\"}]", code, StringComparison.Ordinal);

        var answer = await CheckAsync(service, Equipment());

        Assert.Equal(0, answer.Report.GetProperty("judged").GetProperty("orders").GetInt32());
        Assert.Empty(answer.Findings);
        Assert.Equal(1, (await CheckAsync(Equipment())).Report.GetProperty("judged").GetProperty("orders").GetInt32());
    }

    private static string Coded(string use) => $$"""{"coding":[{"system":"{{Answers}}","code":"{{use}}"}]}""";

    private static string Parameter(string code, string value) =>
        $$"""{"code":{"coding":[{"system":"{{Given.Row}}","code":"{{code}}"}]},"valueCodeableConcept":{{value}}}""";

    private static string Service(string code, string more = "") =>
        $$$"""{"resourceType":"ServiceRequest","id":"sr","status":"active","intent":"order","code":{"coding":[{"system":"http://snomed.info/sct","code":"{{{code}}}"}]},"subject":{"reference":"Patient/p"},"authoredOn":"2026-03-01T06:00:00Z"{{{more}}}}""";

    private static string Equipment(params string[] parameters) =>
        $$$"""{"resourceType":"DeviceRequest","id":"dr","status":"active","intent":"order","codeCodeableConcept":{"text":"regulator"},"subject":{"reference":"Patient/p"},"authoredOn":"2026-03-01T06:00:00Z","basedOn":[{"reference":"ServiceRequest/sr"}],"parameter":[{{{string.Join(',', [.. parameters, Vacuum])}}}]}""";

    private const string Vacuum = """{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-set"}]},"valueQuantity":{"value":200,"unit":"mm[Hg]","system":"http://unitsofmeasure.org","code":"mm[Hg]"}}""";

    private Task<CheckAnswer> CheckAsync(params string[] rows) => CheckAnswer.OfAsync(_folder.File("rows.ndjson", [Given.Adult, .. rows]));
}
