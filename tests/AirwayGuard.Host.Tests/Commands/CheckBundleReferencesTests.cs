using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>Within a Bundle a reference to the fullUrl of an entry is one to its resource, whatever id that has.</summary>
public sealed class CheckBundleReferencesTests : IDisposable
{
    private const string Patient = "urn:uuid:11111111-1111-1111-1111-111111111111", Tube = "urn:uuid:22222222-2222-2222-2222-222222222222";
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("p1")]
    [InlineData("11111111-1111-1111-1111-111111111111")]
    [InlineData(null)]
    public async Task APatientIsFoundByTheAddressOfItsEntry(string? id)
    {
        var answer = await CheckAsync(Given.Bundle("transaction", Reading(), Entry(Patient, Child(id))));

        var finding = Assert.Single(answer.Report.GetProperty("findings").EnumerateArray(), one => one.GetProperty("check").GetString() == "vacuum-above-ceiling");
        Assert.Equal(("Patient/" + (id ?? Patient["urn:uuid:".Length..]), "child"), (finding.GetProperty("patient").GetString(), finding.GetProperty("ageBand").GetString()));
        Assert.Empty(answer.Problems);
    }

    [Fact]
    public async Task SoIsADeviceThatAReferenceDoesNotNameAsOne()
    {
        var device = Entry(Tube, """{"resourceType":"Device","id":"r1","type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/device-kind","code":"vacuum-regulator"}]},"patient":{"reference":"urn:uuid:11111111-1111-1111-1111-111111111111"},"property":[{"type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"suction-use"}]},"valueCode":[{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"airway"}]}]}]}""");

        var answer = await CheckAsync(Given.Bundle("transaction", Reading(Tube), Entry(Patient, Child("p1")), device));

        Assert.Contains("vacuum-above-ceiling Observation/high open", answer.Findings, StringComparer.Ordinal);
    }

    [Fact]
    public async Task OneBundleSaysNothingOfAnothersAddressesAndAnIdentifierIsNoReference()
    {
        var lines = _folder.File("two.ndjson", Given.Bundle("transaction", Entry(Patient, Child("p1"))), Given.Bundle("transaction", Reading()));
        Assert.DoesNotContain((await CheckAnswer.OfAsync(lines)).Report.GetProperty("findings").EnumerateArray(), one => one.GetProperty("patient").GetString() == "Patient/p1");

        var named = await CheckAsync(Given.Bundle("transaction", Reading(), Entry(Patient, Child("p1", $$""","identifier":[{"value":"{{Patient}}"}]"""))));
        Assert.Contains("vacuum-above-ceiling Observation/high open", named.Findings, StringComparer.Ordinal);
    }

    [Fact]
    public async Task AnAddressOfTwoEntriesLeadsToNeither()
    {
        var answer = await CheckAsync(Given.Bundle("transaction", Reading(), Entry(Patient, Child("p1")), Entry(Patient, Child("p2"))));

        Assert.DoesNotContain(answer.Report.GetProperty("findings").EnumerateArray(), one => one.GetProperty("patient").GetString() is "Patient/p1" or "Patient/p2");
    }

    private static string Child(string? id, string more = "") => $$"""{"resourceType":"Patient"{{(id is null ? "" : $",\"id\":\"{id}\"")}},"birthDate":"2018-01-01"{{more}}}""";

    private static string Reading(string about = Patient) =>
        Entry("urn:uuid:33333333-3333-3333-3333-333333333333", Given.HighVacuum.Replace("\"Patient/p\"", $"\"{about}\"", StringComparison.Ordinal));

    private static string Entry(string address, string resource) => $$"""{"fullUrl":"{{address}}","resource":{{resource}}}""";

    private Task<CheckAnswer> CheckAsync(string bundle) => CheckAnswer.OfAsync(_folder.File("bundle.json", bundle));
}
