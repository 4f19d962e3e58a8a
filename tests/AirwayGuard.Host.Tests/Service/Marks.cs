using System.Globalization;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>What must not be told, in words that occur nowhere else; and charting that is full of them.</summary>
internal static class Marks
{
    public const string Family = "Quillfeather", Number = "MRN-7730415", Birth = "1947-11-23", Phone = "555-0188-421", Note = "marmalade-note", Token = "marked-token-5d1", Asked = "marked-query-3";

    public const string PatientId = "pat-7f3marked", RowId = "row-9c2marked", Value = "263.25";

    /// <summary>Never told to anybody by the service itself.</summary>
    public static IReadOnlyList<string> OfThePerson { get; } = [Family, Number, Birth, Phone, Note, Token, Asked];

    /// <summary>Told to who asks about a chart; never in a log, a metric, a refusal.</summary>
    public static IReadOnlyList<string> OfTheChart { get; } = [PatientId, RowId, Value];

    public static string Patient { get; } =
        $$"""{"resourceType":"Patient","id":"{{PatientId}}","identifier":[{"system":"urn:demo:mrn","value":"{{Number}}"}],"name":[{"family":"{{Family}}"}],"telecom":[{"system":"phone","value":"{{Phone}}"}],"birthDate":"{{Birth}}"}""";

    /// <summary>A vacuum above every ceiling.</summary>
    public static string High(DateTimeOffset at) => Row(RowId, $$""" "valueQuantity":{"value":{{Value}},"unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"} """, at);

    /// <summary>Rows that are read with trouble: charted as text, in a unit of no pressure, without a value.</summary>
    public static IReadOnlyList<string> Doubtful(DateTimeOffset at) =>
    [
        Row(RowId + "-a", $$""" "valueString":"{{Family}} {{Value}} {{Note}}" """, at),
        Row(RowId + "-b", $$""" "valueQuantity":{"value":{{Value}},"unit":"kg","system":"http://unitsofmeasure.org","code":"kg"} """, at),
        Row(RowId + "-c", $$""" "dataAbsentReason":{"text":"{{Note}}"} """, at),
        Row(RowId + "-d", $$""" "valueCodeableConcept":{"text":"{{Note}} {{Family}}"} """, at),
    ];

    /// <summary>What is no resource: torn, a wrong date, a wrong number, no JSON.</summary>
    public static IReadOnlyList<string> Broken(DateTimeOffset at) =>
    [
        High(at)[..^40],
        High(at).Replace("Z\"", $"{Note}\"", StringComparison.Ordinal),
        High(at).Replace(Value, $"\"{Value} {Note}\"", StringComparison.Ordinal),
        Patient.Replace(Birth, Birth + Note, StringComparison.Ordinal),
        $"{Family};{Number};{Value}",
        $$"""{"resourceType":"{{Family}}","id":"{{RowId}}"}""",
    ];

    private static string Row(string id, string value, DateTimeOffset at) =>
        $$$"""{"resourceType":"Observation","id":"{{{id}}}","status":"final","code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-pressure"}]},"subject":{"reference":"Patient/{{{PatientId}}}","display":"{{{Family}}}"},"performer":[{"display":"{{{Family}}}"}],"effectiveDateTime":"{{{at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture)}}}","note":[{"text":"{{{Note}}} {{{Phone}}}"}],{{{value}}}}""";
}
