using System.Globalization;

namespace AirwayGuard.TestKit.Pipeline;

/// <summary>FHIR resources of one invented patient, as a charting system would send them.</summary>
public static class Ward
{
    public static readonly DateTimeOffset Morning = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    /// <summary>An adult.</summary>
    public const string Patient = """{"resourceType":"Patient","id":"p","birthDate":"1961-05-04"}""";

    /// <summary>A tube of 8 mm since an hour before the morning.</summary>
    public static readonly string[] Tube =
    [
        """{"resourceType":"Device","id":"ett","status":"active","type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/device-kind","code":"tracheal-tube"}]},"property":[{"type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"tube-inner-diameter"}]},"valueQuantity":[{"value":8,"unit":"mm","system":"http://unitsofmeasure.org","code":"mm"}]}]}""",
        """{"resourceType":"DeviceUseStatement","id":"use","status":"active","subject":{"reference":"Patient/p"},"device":{"reference":"Device/ett"},"timingPeriod":{"start":"2026-03-02T07:00:00Z"}}""",
    ];

    /// <summary>The tube is out.</summary>
    /// <param name="minutes">After <see cref="Morning"/>.</param>
    public static string TubeOut(int minutes) =>
        $$$"""{"resourceType":"DeviceUseStatement","id":"use","status":"completed","subject":{"reference":"Patient/p"},"device":{"reference":"Device/ett"},"timingPeriod":{"start":"2026-03-02T07:00:00Z","end":"{{{At(minutes)}}}"} }""";

    /// <summary>One vacuum reading, taken with the tubing occluded unless said otherwise.</summary>
    /// <param name="minutes">After <see cref="Morning"/>.</param>
    public static string Vacuum(string id, int mmHg, int minutes, string method = "occluded", string status = "final") =>
        Row(id, "vacuum-pressure", $$"""{"value":{{mmHg}},"unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"}""", minutes, status,
            $$$""","component":[{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-reading-method"}]},"valueCodeableConcept":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"{{{method}}}"}]}}]""");

    /// <summary>One vacuum reading whose code stands in a component alone, in a row of a code that nobody maps.</summary>
    public static string VacuumInComponent(string id, int mmHg, int minutes) =>
        $$$"""{"resourceType":"Observation","id":"{{{id}}}","status":"final","code":{"text":"Suction"},"subject":{"reference":"Patient/p"},"effectiveDateTime":"{{{At(minutes)}}}","component":[{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-pressure"}]},"valueQuantity":{"value":{{{mmHg}}},"unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"}}]}""";

    /// <summary>One pass of a suction catheter, charted by its duration.</summary>
    public static string Pass(string id, int seconds, int minutes, string status = "final") =>
        Row(id, "pass-duration", $$"""{"value":{{seconds}},"unit":"s","system":"http://unitsofmeasure.org","code":"s"}""", minutes, status, "");

    /// <summary>The size of the catheter used, outside diameter in French.</summary>
    public static string Catheter(string id, int french, int minutes) =>
        Row(id, "catheter-size", $$"""{"value":{{french}},"unit":"Fr","system":"http://unitsofmeasure.org","code":"[Ch]"}""", minutes, "final", "");

    /// <summary>The regulator's mode: bypassed to the wall's whole vacuum.</summary>
    public static string FullLine(string id, int minutes) =>
        Row(id, "regulator-mode", """{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"full-line"}]}""", minutes, "final", "", "valueCodeableConcept");

    private static string Row(string id, string code, string value, int minutes, string status, string more, string member = "valueQuantity") =>
        $$$"""{"resourceType":"Observation","id":"{{{id}}}","status":"{{{status}}}","code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"{{{code}}}"}]},"subject":{"reference":"Patient/p"},"effectiveDateTime":"{{{At(minutes)}}}","{{{member}}}":{{{value}}}{{{more}}}}""";

    private static string At(int minutes) => Morning.AddMinutes(minutes).ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
