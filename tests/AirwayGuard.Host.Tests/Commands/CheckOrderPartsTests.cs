using System.Text.Json;
using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>Each part of a structured order is used, or named as unread and told by order-not-machine-readable; suction of another place is no order of the airway's.</summary>
public sealed class CheckOrderPartsTests : IDisposable
{
    private const string Vacuum = "ordered-vacuum-above-ceiling", Despite = "suctioned-despite-order-not-to", NotRead = "order-not-machine-readable", Clock = "suction-ordered-by-clock";
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("{\"text\":\"Mouth\"}")]
    [InlineData("{\"text\":\"oral cavity\"}")]
    [InlineData("{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"123851003\"}]}")]
    [InlineData("{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"69695003\",\"display\":\"Stomach structure\"}]}")]
    public async Task SuctionOfAnotherPlaceIsNoOrderOfTheAirways(string site)
    {
        var asked = await CheckAsync(Service($$""","bodySite":[{{site}}],"note":[{"text":"max 300 mmHg"}]"""), Equipment("\"valueQuantity\":" + MmHg(300), tie: true));
        var forbidden = await CheckAsync(Service($$""","doNotPerform":true,"bodySite":[{{site}}]"""), Pass());

        Assert.Empty(Orders(asked));
        Assert.DoesNotContain(asked.Findings.Concat(forbidden.Findings), one => one.StartsWith(Vacuum, StringComparison.Ordinal) || one.StartsWith(Despite, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("{\"text\":\"trachea\"}", "")]
    [InlineData("{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"44567001\"}]}", "")]
    [InlineData("{\"text\":\"left side\"}", "left side")]
    [InlineData("{\"text\":\"nose\"}", "nose")]
    [InlineData("{\"coding\":[{\"system\":\"urn:local\",\"code\":\"7\"}]}", "7")]
    public async Task ASiteThatIsNotUnderstoodIsNamedAndTheOrderJudged(string site, string unread)
    {
        var answer = await CheckAsync(Service($$""","bodySite":[{{site}}],"asNeededBoolean":true,"note":[{"text":"max 300 mmHg"}]"""));

        Assert.Equal($"300 [{unread}]", Said(answer, "vacuumHigh"));
        Assert.Contains($"{Vacuum} ServiceRequest/s open", answer.Findings, StringComparer.Ordinal);
        Assert.Equal(unread.Length > 0, answer.Findings.Contains($"{NotRead} ServiceRequest/s open", StringComparer.Ordinal));
    }

    [Fact]
    public async Task OfAPlaceOfTheAirwayAndAnotherNobodyCanTell()
    {
        var answer = await CheckAsync(Service(""","bodySite":[{"text":"mouth"},{"text":"trachea"}],"note":[{"text":"max 300 mmHg"}]"""));

        Assert.Contains($"{Vacuum} ServiceRequest/s: what is to be suctioned", answer.CannotTell, StringComparer.Ordinal);
        Assert.Equal("300 [mouth; trachea]", Said(answer, "vacuumHigh"));
    }

    [Theory]
    [InlineData("Wound vacuum pump", 0)]
    [InlineData("Yankauer, oral", 0)]
    [InlineData("Suction regulator", 1)]
    public async Task EquipmentForAnotherPlaceIsNoOrderOfTheAirways(string text, int orders)
    {
        var answer = await CheckAsync(Equipment("\"valueQuantity\":" + MmHg(300), text));

        Assert.Equal(orders, Orders(answer).Count);
        Assert.Equal(orders > 0, answer.Findings.Contains($"{Vacuum} DeviceRequest/d open", StringComparer.Ordinal));
    }

    [Fact]
    public async Task AParameterWithAModifierThatIsNotUnderstoodIsNotEvaluated()
    {
        var answer = await CheckAsync(Equipment("\"modifierExtension\":[{\"url\":\"urn:x\",\"valueBoolean\":true}],\"valueQuantity\":" + MmHg(300)));

        Assert.Equal("null [vacuum-set 300 mm[Hg]]", Said(answer, "vacuumHigh"));
        Assert.Equal([$"{NotRead} DeviceRequest/d open"], answer.Findings);
        Assert.Equal(["AG2110 DeviceRequest/d"], answer.Problems);
    }

    [Theory]
    [InlineData(""","asNeededCodeableConcept":{"text":"If SpO2 below 90"}""", "If SpO2 below 90")]
    [InlineData(""","occurrenceDateTime":"2026-03-01T09:00:00Z" """, "2026-03-01T09:00:00Z")]
    [InlineData(""","occurrenceTiming":{"code":{"text":"each turn"}}""", "each turn")]
    public async Task ABanUnderAConditionOrAtATimeForbidsWhatNobodyCanTell(string says, string unread)
    {
        var answer = await CheckAsync(Service(""","doNotPerform":true""" + says), Pass());

        Assert.Equal($"null [{unread}]", Said(answer, "doNotSuction"));
        Assert.DoesNotContain($"{Despite} Observation/x open", answer.Findings, StringComparer.Ordinal);
        Assert.Contains($"{Despite} Observation/x: whether an order asks for suction or forbids it", answer.CannotTell, StringComparer.Ordinal);
        Assert.Contains($"{NotRead} ServiceRequest/s open", answer.Findings, StringComparer.Ordinal);
    }

    [Theory]
    [InlineData(""","asNeededCodeableConcept":{"text":"Secretions; do not exceed 200 mmHg, 14 Fr"}""", "200 14 []")]
    [InlineData(""","reasonCode":[{"text":"Pneumonia. Do not deep suction, max 200 mmHg"}]""", "200 null []")]
    [InlineData(""","reasonCode":[{"text":"Pneumonia with copious secretions"}]""", "null null []")]
    [InlineData(""","reasonCode":[{"text":"Code 7 of the unit"}]""", "null null [Code 7 of the unit]")]
    [InlineData(""","asNeededCodeableConcept":{"text":"If SpO2 below 90"}""", "null null []")]
    [InlineData(""","asNeededCodeableConcept":{"text":"Audible secretions or falling SpO2"}""", "null null []")]
    public async Task TheTextsOfAServiceThatHoldAValueOrANegationAreRead(string says, string said) => Assert.Equal(
        said, Said(await CheckAsync(Service((says.Contains("asNeeded", StringComparison.Ordinal) ? "" : ""","asNeededBoolean":true""") + says)), "vacuumHigh", "catheterFr"));

    [Fact]
    public async Task ADisplayThatSaysMoreThanTheActIsReadToo()
    {
        var service = Service().Replace("\"code\":\"230040009\"", "\"code\":\"230040009\",\"display\":\"Suction ETT max 200 mmHg\"", StringComparison.Ordinal);

        Assert.Equal("200 null []", Said(await CheckAsync(service), "vacuumHigh", "catheterFr"));
    }

    [Theory]
    [InlineData("Suction catheter 14 Fr", "null 14 []")]
    [InlineData("Suction regulator, max 200 mmHg", "200 null []")]
    [InlineData("Suction regulator", "null null []")]
    public async Task TheTextThatNamesEquipmentIsRead(string text, string said) => Assert.Equal(
        said, Said(await CheckAsync(Equipment("\"valueCodeableConcept\":{\"text\":\"closed\"}", text, "suction-system")), "vacuumHigh", "catheterFr"));

    [Fact]
    public async Task AClosedCatheterAskedForIsClosedSuction()
    {
        var equipment = Equipment("\"valueQuantity\":" + MmHg(100)).Replace(
            "{\"text\":\"regulator\"}", "{\"coding\":[{\"system\":\"https://airwayguard.example.org/fhir/CodeSystem/device-kind\",\"code\":\"closed-suction-catheter\"}]}", StringComparison.Ordinal);

        Assert.Equal("closed []", Said(await CheckAsync(equipment), "system"));
    }

    [Theory]
    [InlineData("full-line-vacuum", "\"valueQuantity\":{\"value\":500,\"system\":\"http://unitsofmeasure.org\",\"code\":\"mm[Hg]\"}", "full-line-vacuum 500 mm[Hg]")]
    [InlineData("pass-duration", "\"valueQuantity\":{\"value\":60,\"system\":\"http://unitsofmeasure.org\",\"code\":\"s\"}", "pass-duration 60 s")]
    [InlineData("pass-count", "\"valueInteger\":10", "pass-count")]
    [InlineData("preoxygenation-duration", "\"valueQuantity\":{\"value\":10,\"system\":\"http://unitsofmeasure.org\",\"code\":\"s\"}", "preoxygenation-duration 10 s")]
    [InlineData("hand-technique", "\"valueCodeableConcept\":{\"text\":\"clean\"}", "hand-technique clean")]
    [InlineData("peep", "\"valueQuantity\":{\"value\":8,\"system\":\"http://unitsofmeasure.org\",\"code\":\"cm[H2O]\"}", "peep 8 cm[H2O]")]
    public async Task AParameterThatNoCheckOfOrdersUsesIsNamedWithItsValue(string concept, string value, string named)
    {
        var answer = await CheckAsync(Service(""","asNeededBoolean":true"""), Equipment(value, "Suction catheter", concept, tie: true).Replace(
            "{\"text\":\"Suction catheter\"}", "{\"coding\":[{\"system\":\"https://airwayguard.example.org/fhir/CodeSystem/device-kind\",\"code\":\"suction-catheter\"}]}", StringComparison.Ordinal));

        Assert.Equal($"true [{named}]", Said(answer, "asNeeded"));
        Assert.Equal([$"{NotRead} ServiceRequest/s open"], answer.Findings);
    }

    [Fact]
    public async Task ARangeWhoseEndsAreInTwoKindsOfUnitIsToldAsNotRead()
    {
        var answer = await CheckAsync(Equipment("\"valueRange\":{\"low\":{\"value\":80},\"high\":" + MmHg(140) + "}"));

        Assert.Equal("140 [80]", Said(answer, "vacuumHigh"));
        Assert.Contains($"{NotRead} DeviceRequest/d open", answer.Findings, StringComparer.Ordinal);
    }

    [Theory]
    [InlineData(""","occurrenceDateTime":"2026-03-01T09:00:00Z" """, "true []", true)]
    [InlineData(""","occurrenceDateTime":"2026-03-01T09:00:00Z","asNeededBoolean":true""", "false []", false)]
    [InlineData(""","occurrencePeriod":{"start":"2026-03-01T09:00:00Z","end":"2026-03-02T09:00:00Z"},"asNeededBoolean":true""", "false []", false)]
    [InlineData(""","occurrencePeriod":{"start":"2026-03-01T09:00:00Z","end":"2026-03-02T09:00:00Z"}""", "null [2026-03-01T09:00:00Z to 2026-03-02T09:00:00Z]", false)]
    [InlineData(""","occurrenceTiming":{"code":{"text":"every 4 hours"}}""", "true []", true)]
    [InlineData(""","occurrenceTiming":{"code":{"text":"PRN"}}""", "false []", false)]
    [InlineData(""","occurrenceTiming":{"code":{"text":"each turn"}}""", "null [each turn]", false)]
    public async Task WhenSuctionIsAskedForIsReadOrNamed(string says, string said, bool isByClock)
    {
        var answer = await CheckAsync(Service(says));

        Assert.Equal(said, Said(answer, "byClock"));
        Assert.Equal(isByClock, answer.Findings.Contains($"{Clock} ServiceRequest/s open", StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("bogus", "AG2111 ServiceRequest/s")]
    [InlineData("plan", "")]
    [InlineData("directive", "")]
    public async Task AnIntentThatDoesNotExistIsTold(string intent, string problems)
    {
        var answer = await CheckAsync(Service(""","asNeededBoolean":true""").Replace("\"intent\":\"order\"", $"\"intent\":\"{intent}\"", StringComparison.Ordinal));

        Assert.Empty(Orders(answer));
        Assert.Equal(problems, string.Join("; ", answer.Problems));
    }

    [Fact]
    public async Task ThickSecretionsInADetailAreAReason()
    {
        const string Thick = """{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"thick-secretions"}]}""";
        var answer = await CheckAsync(Service($$""","asNeededBoolean":true,"orderDetail":[{{Thick}}]"""), Equipment("\"valueBoolean\":true", concept: "saline-instilled", tie: true));

        Assert.Empty(answer.Findings);
    }

    // From 14 Fr on: what is that wide already breaches, and of what is not nobody can tell.
    [Theory]
    [InlineData(8, "catheter-too-wide DeviceRequest/d open", "")]
    [InlineData(10, "", "catheter-too-wide DeviceRequest/d: exact value")]
    public async Task ACatheterBoundedFromBelowAloneIsHeldAgainstTheTube(int millimetres, string found, string open)
    {
        var answer = await CheckAsync(
            Given.Observation("t", $$"""{"value":{{millimetres}},"system":"http://unitsofmeasure.org","code":"mm"}""", "valueQuantity", "2026-03-01T05:00:00Z", code: "tube-inner-diameter"),
            Equipment("\"valueRange\":{\"low\":{\"value\":14,\"system\":\"http://unitsofmeasure.org\",\"code\":\"[Ch]\"}}", concept: "catheter-size"));

        Assert.Equal("14 []", Said(answer, "catheterFr"));
        Assert.Equal(found, string.Join("; ", answer.Findings));
        Assert.Equal(open, string.Join("; ", answer.CannotTell.Where(one => one.StartsWith("catheter-too-wide", StringComparison.Ordinal))));
    }

    [Fact]
    public async Task TwoVacuumsThatAreTheSameInTwoUnitsDoNotDiffer()
    {
        var answer = await CheckAsync(Service(""","asNeededBoolean":true,"note":[{"text":"Max vacuum 16 kPa"}]"""), Equipment("\"valueQuantity\":" + MmHg(120), tie: true));

        Assert.Empty(answer.Findings);
    }

    [Theory]
    [InlineData("text", "Charted: 7 | quantity 3 times.")]
    [InlineData("fhir", "7 | quantity 3 times")]
    [InlineData("json", "7 | quantity 3 times")]
    public async Task WhatWasNotReadIsSaidInEveryForm(string format, string said)
    {
        var rows = _folder.File("rows.ndjson", Given.Adult, Service(""","asNeededBoolean":true,"bodySite":[{"coding":[{"system":"urn:local","code":"7"}]}],"quantityQuantity":{"value":3,"unit":"times"}"""));

        var (_, stdout, _) = await InProcessCheck.RunAsync(["check", rows, "--format", format]);

        Assert.Contains(said, stdout, StringComparison.Ordinal);
    }

    private static string Said(CheckAnswer answer, params string[] fields)
    {
        var order = Orders(answer)[0];
        var unread = string.Join("; ", order.GetProperty("unread").EnumerateArray().Select(one => one.GetString()));
        return string.Join(' ', fields.Select(field => order.GetProperty(field) is { ValueKind: JsonValueKind.String } text ? text.GetString() : order.GetProperty(field).GetRawText())) + $" [{unread}]";
    }

    private static List<JsonElement> Orders(CheckAnswer answer) => [.. answer.Report.GetProperty("orders").EnumerateArray()];

    private static string Pass() => Given.Observation("x", "true", "valueBoolean", code: "suction-pass");

    private static string MmHg(int vacuum) => $$"""{"value":{{vacuum}},"unit":"mm[Hg]","system":"http://unitsofmeasure.org","code":"mm[Hg]"}""";

    private static string Service(string more = "") =>
        $$$"""{"resourceType":"ServiceRequest","id":"s","status":"active","intent":"order","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},"subject":{"reference":"Patient/p"},"authoredOn":"2026-03-01T06:00:00Z"{{{more}}}}""";

    private static string Equipment(string value, string text = "regulator", string concept = "vacuum-set", bool tie = false) =>
        $$$"""{"resourceType":"DeviceRequest","id":"d","status":"active","intent":"order","codeCodeableConcept":{"text":"{{{text}}}"},"subject":{"reference":"Patient/p"},"authoredOn":"2026-03-01T06:00:00Z"{{{(tie ? ",\"basedOn\":[{\"reference\":\"ServiceRequest/s\"}]" : "")}}},"parameter":[{"code":{"coding":[{"system":"{{{Given.Row}}}","code":"{{{concept}}}"}]},{{{value}}}}]}""";

    private Task<CheckAnswer> CheckAsync(params string[] rows) => CheckAnswer.OfAsync(_folder.File("rows.ndjson", [Given.Adult, .. rows]));
}
