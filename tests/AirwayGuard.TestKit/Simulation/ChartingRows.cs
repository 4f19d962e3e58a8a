using System.Globalization;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Writes the charting of one patient as FHIR R4, with our own codes as they stand. All invented.</summary>
/// <param name="start">When it begins.</param>
internal sealed class ChartingRows(string patient, DateTimeOffset start)
{
    private const string Base = "https://airwayguard.example.org/fhir/CodeSystem/";

    public string Patient => patient;

    public string Person() => $$"""{"resourceType":"Patient","id":"{{patient}}","birthDate":"1970-05-05"}""";

    public string Stay() =>
        $$$"""{"resourceType":"Encounter","id":"e-{{{patient}}}","status":"in-progress","class":{"system":"http://terminology.hl7.org/CodeSystem/v3-ActCode","code":"IMP"},"subject":{"reference":"Patient/{{{patient}}}"},"period":{"start":"{{{Time(start.AddHours(-6))}}}"}}""";

    public string Vacuum(string id, DateTimeOffset at, int value, string status) => Row(
        id, "vacuum-pressure", status, $"\"effectiveDateTime\":\"{Time(at)}\"",
        string.Create(CultureInfo.InvariantCulture, $$"""
            ,"valueQuantity":{"value":{{value}},"unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"}
            """));

    public string Pass(string id, DateTimeOffset start, int seconds, string status) => Row(
        id, "suction-pass", status, $$"""
            "effectivePeriod":{"start":"{{Time(start)}}","end":"{{Time(start.AddSeconds(seconds))}}"}
            """, "");

    public string YesNo(string id, string concept, DateTimeOffset at, bool value) =>
        Row(id, concept, "final", $"\"effectiveDateTime\":\"{Time(at)}\"", $",\"valueBoolean\":{(value ? "true" : "false")}");

    public string Answer(string id, string concept, DateTimeOffset at, string answer) => Row(
        id, concept, "final", $"\"effectiveDateTime\":\"{Time(at)}\"", $$"""
            ,"valueCodeableConcept":{"coding":[{"system":"{{Base}}airway-care-answer","code":"{{answer}}"}]}
            """);

    public string Order(string id, DateTimeOffset authored, string status) =>
        $$$"""{"resourceType":"ServiceRequest","id":"{{{id}}}","status":"{{{status}}}","intent":"order","code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]},"subject":{"reference":"Patient/{{{patient}}}"},"encounter":{"reference":"Encounter/e-{{{patient}}}"},"authoredOn":"{{{Time(authored)}}}","occurrenceTiming":{"repeat":{"frequency":1,"period":2,"periodUnit":"h"} } }""";

    private string Row(string id, string concept, string status, string effective, string value) =>
        $$$"""{"resourceType":"Observation","id":"{{{id}}}","status":"{{{status}}}","code":{"coding":[{"system":"{{{Base}}}airway-care","code":"{{{concept}}}"}]},"subject":{"reference":"Patient/{{{patient}}}"},"encounter":{"reference":"Encounter/e-{{{patient}}}"},{{{effective}}}{{{value}}}}""";

    private static string Time(DateTimeOffset time) => time.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);
}
