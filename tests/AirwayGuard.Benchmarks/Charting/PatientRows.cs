using System.Globalization;
using System.Text;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Benchmarks.Charting;

/// <summary>An invented patient's resources as a server would send them, in the codes of the invented hospital Willowmere.</summary>
/// <param name="Id">Of the patient and the encounter, and before each row's own key.</param>
internal sealed record PatientRows(string Id)
{
    /// <summary>As references name the patient.</summary>
    public string Name => "Patient/" + Id;

    /// <param name="birthDate">As FHIR writes a date.</param>
    public Arrival Patient(string birthDate, DateTimeOffset at) =>
        Of("Patient", Id, at, $$"""{"resourceType":"Patient","id":"{{Id}}","meta":{"versionId":"1"},"birthDate":"{{birthDate}}"}""");

    public Arrival Encounter(DateTimeOffset at) => Encounter(at, "1", "in-progress", at, "");

    /// <summary>The second version of the encounter, with its end.</summary>
    public Arrival Discharge(DateTimeOffset from, DateTimeOffset to) => Encounter(from, "2", "finished", to, $",\"end\":\"{Time(to)}\"");

    public static string Coded(string code, string display) =>
        $$$"""
        "valueCodeableConcept":{"coding":[{"system":"https://willowmere.example.org/charting/answer","code":"{{{code}}}","display":"{{{display}}}"}],"text":"{{{display}}}"}
        """;

    public static string Quantity(string value, string unit, string code) =>
        $$"""
        "valueQuantity":{"value":{{value}},"unit":"{{unit}}","system":"http://unitsofmeasure.org","code":"{{code}}"}
        """;

    /// <summary>A charted row.</summary>
    /// <param name="key">Its own among this patient's.</param>
    public Arrival Row(string key, string code, string display, DateTimeOffset at, string value)
    {
        var id = Id + "-" + key;
        return Of("Observation", id, at, $$$"""
            {"resourceType":"Observation","id":"{{{id}}}","meta":{"versionId":"1","lastUpdated":"{{{Time(at)}}}","profile":["https://willowmere.example.org/fhir/StructureDefinition/charted-row"]},"status":"final","category":[{"coding":[{"system":"http://terminology.hl7.org/CodeSystem/observation-category","code":"procedure","display":"Procedure"}]}],"code":{"coding":[{"system":"https://willowmere.example.org/charting/row","code":"{{{code}}}","display":"{{{display}}}"}],"text":"{{{display}}}"},"subject":{"reference":"{{{Name}}}"},"encounter":{"reference":"Encounter/{{{Id}}}"},"effectiveDateTime":"{{{Time(at)}}}","issued":"{{{Time(at)}}}","performer":[{"reference":"Practitioner/n7","display":"Charting nurse"}],{{{value}}}}
            """);
    }

    private Arrival Encounter(DateTimeOffset from, string version, string status, DateTimeOffset known, string end) => Of(
        "Encounter", Id, known, $$$"""{"resourceType":"Encounter","id":"{{{Id}}}","meta":{"versionId":"{{{version}}}"},"status":"{{{status}}}","class":{"system":"http://terminology.hl7.org/CodeSystem/v3-ActCode","code":"IMP"},"subject":{"reference":"{{{Name}}}"},"period":{"start":"{{{Time(from)}}}"{{{end}}}}}""", version);

    private static Arrival Of(string type, string id, DateTimeOffset at, string body, string version = "1") =>
        new(ArrivalKind.Resource, "https://fhir.willowmere.example.org/r4", type, id, version, at, KnownBy.ServersStamp, Encoding.UTF8.GetBytes(body));

    private static string Time(DateTimeOffset at) => at.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);
}
