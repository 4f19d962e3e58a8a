using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>Where the parts of an order say two things, the structured one goes before the text, the difference is named, and no check takes the order as within.</summary>
public sealed class CheckOrderDiffersTests : IDisposable
{
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("saline-instilled", "\"valueBoolean\":true", "No saline", "saline true [no saline]", "order-not-machine-readable; saline-without-reason")]
    [InlineData("saline-instilled", "\"valueBoolean\":false", "Instill saline 5 mL", "saline false [saline]", "order-not-machine-readable; saline-without-reason?")]
    [InlineData("saline-instilled", "\"valueBoolean\":false", "Instill saline if thick", "saline false [saline]", "order-not-machine-readable")]
    [InlineData("suction-system", "\"valueCodeableConcept\":{\"text\":\"open\"}", "Closed suction", "system open [closed]", "open-suction-where-closed-advised; order-not-machine-readable")]
    [InlineData("suction-system", "\"valueCodeableConcept\":{\"text\":\"closed\"}", "Open suction", "system closed [open]", "open-suction-where-closed-advised?; order-not-machine-readable")]
    [InlineData("depth-technique", "\"valueCodeableConcept\":{\"text\":\"shallow\"}", "Deep suction", "depth shallow [deep]", "deep-technique-without-reason?; order-not-machine-readable")]
    [InlineData("depth-technique", "\"valueCodeableConcept\":{\"text\":\"deep\"}", "No deep suction", "depth deep [shallow]", "deep-technique-without-reason; order-not-machine-readable")]
    [InlineData("preoxygenation", "\"valueBoolean\":true", "Do not preoxygenate", "preoxygenate true [no pre-oxygenation]", "order-not-machine-readable")]
    [InlineData("saline-instilled", "\"valueBoolean\":true", "Saline 5 mL", "saline true []", "saline-without-reason")]
    [InlineData("suction-system", "\"valueCodeableConcept\":{\"text\":\"closed\"}", "In-line suction", "system closed []", "")]
    public async Task TheStructuredOneGoesBeforeTheTextOfTheServiceItBelongsTo(string concept, string value, string text, string says, string found)
    {
        var answer = await CheckAsync(Service($$""","note":[{"text":"{{text}}"}]"""), Equipment(Parameter(concept, value)));

        AssertSays(answer, says, found);
    }

    [Theory]
    [InlineData("saline-instilled", "\"valueBoolean\":true", "\"valueBoolean\":false", "saline true [no saline]", "order-not-machine-readable; saline-without-reason")]
    [InlineData("suction-system", "\"valueCodeableConcept\":{\"text\":\"closed\"}", "\"valueCodeableConcept\":{\"text\":\"open\"}", "system open [closed]", "open-suction-where-closed-advised; order-not-machine-readable")]
    [InlineData("depth-technique", "\"valueCodeableConcept\":{\"text\":\"shallow\"}", "\"valueCodeableConcept\":{\"text\":\"deep\"}", "depth deep [shallow]", "deep-technique-without-reason; order-not-machine-readable")]
    [InlineData("suction-system", "\"valueCodeableConcept\":{\"text\":\"closed\"}", "\"valueCodeableConcept\":{\"text\":\"closed\"}", "system closed []", "")]
    public async Task OfTwoStructuredOnesTheStricterCounts(string concept, string one, string other, string says, string found)
    {
        AssertSays(await CheckAsync(Service(), Equipment(Parameter(concept, one), Parameter(concept, other))), says, found);
        AssertSays(await CheckAsync(Service(), Equipment(Parameter(concept, other), Parameter(concept, one))), says, found);
    }

    [Fact]
    public async Task ATextBesideACodeOfOneDetailIsTextToo()
    {
        const string Closed = """{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"closed"}],"text":"Open"}""";

        AssertSays(await CheckAsync(Service($$""","orderDetail":[{{Closed}}]""")), "system closed [open]", "open-suction-where-closed-advised?; order-not-machine-readable");
        AssertSays(await CheckAsync(Service(), Equipment(Parameter("suction-system", "\"valueCodeableConcept\":" + Closed))), "system closed [open]", "open-suction-where-closed-advised?; order-not-machine-readable");
    }

    // A neonate with a PEEP of 12, so that open suction, deep suction and saline are each asked after.
    private static void AssertSays(CheckAnswer answer, string says, string found)
    {
        var order = answer.Report.GetProperty("orders")[0];
        var field = says.Split(' ')[0];
        var unread = string.Join("; ", order.GetProperty("unread").EnumerateArray().Select(one => one.GetString()));
        Assert.Equal(says, $"{field} {order.GetProperty(field)} [{unread}]".Replace("True", "true", StringComparison.Ordinal).Replace("False", "false", StringComparison.Ordinal));
        Assert.Equal(found, string.Join("; ", answer.Findings.Select(one => one.Split(' ')[0])
            .Concat(answer.CannotTell.Where(one => one.EndsWith(": which of two things the order says holds", StringComparison.Ordinal)).Select(one => one.Split(' ')[0] + "?"))
            .Where(one => !one.StartsWith("saline-dose", StringComparison.Ordinal)).Order(StringComparer.Ordinal)));
    }

    private static string Parameter(string code, string value) => $$"""{"code":{"coding":[{"system":"{{Given.Row}}","code":"{{code}}"}]},{{value}}}""";

    private static string Service(string more = "") =>
        $$$"""{"resourceType":"ServiceRequest","id":"s","status":"active","intent":"order","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},"subject":{"reference":"Patient/p"},"authoredOn":"2026-03-01T06:00:00Z","asNeededBoolean":true{{{more}}}}""";

    private static string Equipment(params string[] parameters) =>
        $$$"""{"resourceType":"DeviceRequest","id":"d","status":"active","intent":"order","codeCodeableConcept":{"text":"regulator"},"subject":{"reference":"Patient/p"},"authoredOn":"2026-03-01T06:00:00Z","basedOn":[{"reference":"ServiceRequest/s"}],"parameter":[{{{string.Join(',', parameters)}}}]}""";

    private Task<CheckAnswer> CheckAsync(params string[] rows) => CheckAnswer.OfAsync(_folder.File(
        "rows.ndjson",
        [
            """{"resourceType":"Patient","id":"p","birthDate":"2026-02-20"}""",
            Given.Observation("peep", """{"value":12,"system":"http://unitsofmeasure.org","code":"cm[H2O]"}""", "valueQuantity", at: "2026-03-01T05:30:00Z", code: "peep"),
            .. rows,
        ]));
}
