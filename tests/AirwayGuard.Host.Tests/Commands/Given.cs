namespace AirwayGuard.Host.Tests.Commands;

/// <summary>Small valid resources; each argument names what a test is about.</summary>
internal static class Given
{
    public const string Row = "https://airwayguard.example.org/fhir/CodeSystem/airway-care";

    /// <summary>An adult.</summary>
    public const string Adult = """{"resourceType":"Patient","id":"p","birthDate":"1961-05-04"}""";

    /// <summary>A vacuum of 220 mmHg, above every ceiling.</summary>
    public static string HighVacuum { get; } = Vacuum("high", "220", at: "2026-03-01T09:00:00Z");

    public static string Vacuum(
        string id, string number, string at = "2026-03-01T09:55:00Z", string unit = "mmHg", string ucum = "mm[Hg]", string status = "final", string meta = "{}") =>
        Observation(id, $$"""{"value":{{number}},"unit":"{{unit}}","system":"http://unitsofmeasure.org","code":"{{ucum}}"}""", "valueQuantity", at, status, meta);

    public static string Observation(
        string id, string value, string member, string at = "2026-03-01T09:55:00Z", string status = "final", string meta = "{}", string system = Row, string code = "vacuum-pressure") =>
        $$$"""{"resourceType":"Observation","id":"{{{id}}}","meta":{{{meta}}},"status":"{{{status}}}","code":{"coding":[{"system":"{{{system}}}","code":"{{{code}}}"}]},"subject":{"reference":"Patient/p"},"effectiveDateTime":"{{{at}}}","{{{member}}}":{{{value}}}}""";

    public static string Bundle(string type, params string[] entries) =>
        $$"""{"resourceType":"Bundle","type":"{{type}}","entry":[{{string.Join(',', entries)}}]}""";

    public static string Entry(string resource) => $$"""{"resource":{{resource}}}""";
}
