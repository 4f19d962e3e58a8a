using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>Which requests for equipment belong to which order: never to another patient's, to none that is no order any more, and to one that asks for suction before one that forbids it.</summary>
public sealed class CheckOrderTiesTests : IDisposable
{
    private const string Neonate = """{"resourceType":"Patient","id":"n","birthDate":"2026-02-20"}""";
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(""","requisition":{"system":"urn:g","value":"R1"}""", ""","groupIdentifier":{"system":"urn:g","value":"R1"}""")]
    [InlineData("", ""","basedOn":[{"reference":"ServiceRequest/s"}]""")]
    public async Task AnOrderOfAnotherPatientIsNoPartOfThisOnes(string service, string tie)
    {
        var answer = await CheckAsync(
            Service("s", "p", service), Equipment("own", "p", 140, ""","basedOn":[{"reference":"ServiceRequest/s"}]"""), Neonate, Equipment("d", "n", 70, tie));

        Assert.Equal(["DeviceRequest/d 70", "ServiceRequest/s 140"], Orders(answer).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.DoesNotContain(answer.Findings, one => one.StartsWith("ordered-vacuum-above-ceiling ", StringComparison.Ordinal));
        Assert.Equal(["AG2133 DeviceRequest/d"], answer.Problems);
    }

    [Fact]
    public async Task TheDeeperVacuumOfAnotherPatientIsJudgedForThatOneAlone()
    {
        var answer = await CheckAsync(Service("s", "p"), Given.Adult.Replace("\"p\"", "\"q\"", StringComparison.Ordinal), Equipment("d", "q", 200, ""","basedOn":[{"reference":"ServiceRequest/s"}]"""));

        Assert.Equal(["ordered-vacuum-above-ceiling DeviceRequest/d open"], answer.Findings.Where(one => one.StartsWith("ordered-", StringComparison.Ordinal)), StringComparer.Ordinal);
    }

    [Fact]
    public async Task APassThatNamesAnotherPatientsBanWasNotMadeAgainstIt()
    {
        var pass = """{"resourceType":"Procedure","id":"x","status":"completed","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},"subject":{"reference":"Patient/n"},"performedDateTime":"2026-03-01T09:00:00Z","basedOn":[{"reference":"ServiceRequest/s"}]}""";
        var answer = await CheckAsync(Service("s", "p", ""","doNotPerform":true"""), Neonate, pass);

        Assert.DoesNotContain(answer.Findings, one => one.StartsWith("suctioned-despite-order-not-to ", StringComparison.Ordinal));
        Assert.Equal(["AG2133 Procedure/x"], answer.Problems);
    }

    [Theory]
    [InlineData("revoked")]
    [InlineData("completed")]
    [InlineData("draft")]
    [InlineData("unknown")]
    [InlineData("entered-in-error")]
    public async Task WhatIsActiveIsJudgedByItselfWhereItsOrderIsNoneThatHolds(string status)
    {
        var answer = await CheckAsync(Service("s", "p", status: status), Equipment("d", "p", 200, ""","basedOn":[{"reference":"ServiceRequest/s"}]"""));

        Assert.Equal(["DeviceRequest/d 200"], Orders(answer), StringComparer.Ordinal);
        Assert.Contains("ordered-vacuum-above-ceiling DeviceRequest/d open", answer.Findings, StringComparer.Ordinal);
    }

    [Fact]
    public async Task EquipmentOfAnOrderOnHoldIsHeldWithIt()
    {
        var answer = await CheckAsync(Service("s", "p", status: "on-hold"), Equipment("d", "p", 200, ""","basedOn":[{"reference":"ServiceRequest/s"}]"""));

        Assert.Empty(Orders(answer));
        Assert.Empty(answer.Findings);
    }

    [Theory]
    [InlineData("a", "b")]
    [InlineData("b", "a")]
    public async Task OfTwoOrdersThatShareANumberTheOneThatAsksForSuctionHasTheEquipment(string asks, string forbids)
    {
        const string Group = ""","requisition":{"system":"urn:g","value":"R2"}""";
        var answer = await CheckAsync(
            Service(asks, "p", Group + ""","asNeededBoolean":true"""), Service(forbids, "p", Group + ""","doNotPerform":true"""),
            Equipment("d", "p", 200, ""","groupIdentifier":{"system":"urn:g","value":"R2"}"""));

        Assert.Contains($"ServiceRequest/{asks} 200", Orders(answer), StringComparer.Ordinal);
        Assert.Contains($"ordered-vacuum-above-ceiling ServiceRequest/{asks} open", answer.Findings, StringComparer.Ordinal);
    }

    // When equipment is to be replaced says nothing of when to suction.
    [Theory]
    [InlineData("")]
    [InlineData(",\"basedOn\":[{\"reference\":\"ServiceRequest/s\"}]")]
    public async Task TheTimingOfEquipmentIsNoSuctionByTheClock(string tie)
    {
        var answer = await CheckAsync(
            Service("s", "p", ""","asNeededBoolean":true"""),
            Equipment("d", "p", 100, tie + ""","occurrenceTiming":{"repeat":{"frequency":1,"period":1,"periodUnit":"d"}}"""));

        Assert.All(answer.Report.GetProperty("orders").EnumerateArray(), one => Assert.Equal("null", one.GetProperty("everyHours").GetRawText()));
        Assert.DoesNotContain(answer.Findings, one => one.StartsWith("suction-ordered-by-clock ", StringComparison.Ordinal));
        Assert.Empty(answer.Problems);
    }

    private static IEnumerable<string> Orders(CheckAnswer answer) => answer.Report.GetProperty("orders").EnumerateArray()
        .Select(one => $"{one.GetProperty("order").GetString()} {one.GetProperty("vacuumHigh").GetRawText()}");

    private static string Service(string id, string patient, string more = "", string status = "active") =>
        $$$"""{"resourceType":"ServiceRequest","id":"{{{id}}}","status":"{{{status}}}","intent":"order","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},"subject":{"reference":"Patient/{{{patient}}}"},"authoredOn":"2026-03-01T06:00:00Z"{{{more}}}}""";

    private static string Equipment(string id, string patient, int vacuum, string more = "") =>
        $$$"""{"resourceType":"DeviceRequest","id":"{{{id}}}","status":"active","intent":"order","codeCodeableConcept":{"text":"regulator"},"subject":{"reference":"Patient/{{{patient}}}"},"authoredOn":"2026-03-01T06:00:00Z"{{{more}}},"parameter":[{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-set"}]},"valueQuantity":{"value":{{{vacuum}}},"unit":"mm[Hg]","system":"http://unitsofmeasure.org","code":"mm[Hg]"}}]}""";

    private Task<CheckAnswer> CheckAsync(params string[] rows) => CheckAnswer.OfAsync(_folder.File("rows.ndjson", [Given.Adult, .. rows]));
}
