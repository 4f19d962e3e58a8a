using System.Globalization;
using System.Text;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Benchmarks.Charting;

/// <summary>
/// An invented adult's stay as a server would send it: a tube, and every two hours a session of three suction passes two minutes
/// apart, each a column of eight rows. Every twentieth session holds a pass that breaches, unless the stay is to be quiet.
/// </summary>
/// <param name="Patient">A number of its own.</param>
internal sealed record Stay(int Patient, bool IsQuiet)
{
    public const int PassesPerSession = 3, RowsPerPass = 8, RowsPerSession = PassesPerSession * RowsPerPass;

    /// <summary>Ten days of a session every two hours.</summary>
    public const int Sessions = 120;

    public static readonly DateTimeOffset Begins = new(2026, 3, 2, 8, 0, 0, TimeSpan.FromHours(1));

    private static readonly TimeSpan BetweenSessions = TimeSpan.FromHours(2), BetweenPasses = TimeSpan.FromMinutes(2);

    public string Name => Number("Patient/b", Patient);

    /// <summary>The patient, the encounter and the rows of the tube.</summary>
    public IEnumerable<Arrival> Admission()
    {
        var at = Begins - TimeSpan.FromHours(1);
        var id = Number("b", Patient);
        yield return Of("Patient", id, at, $$"""{"resourceType":"Patient","id":"{{id}}","meta":{"versionId":"1"},"birthDate":"1961-05-04"}""");
        yield return Of("Encounter", id, at, $$$"""{"resourceType":"Encounter","id":"{{{id}}}","meta":{"versionId":"1"},"status":"in-progress","class":{"system":"http://terminology.hl7.org/CodeSystem/v3-ActCode","code":"IMP"},"subject":{"reference":"{{{Name}}}"},"period":{"start":"{{{Time(at)}}}"}}""");
        yield return Row("type", "rt-tube-type", "Airway in place", at, Coded("a-ett", "Endotracheal tube"));
        yield return Row("size", "rt-tube-size", "Tube inner diameter", at, Quantity("8.0", "mm", "mm"));
    }

    /// <summary>The 24 rows of one session.</summary>
    /// <param name="session">From 0.</param>
    public IEnumerable<Arrival> Session(int session)
    {
        for (var pass = 0; pass < PassesPerSession; pass++)
        {
            var at = Begins + (session * BetweenSessions) + (pass * BetweenPasses);
            var isBreach = !IsQuiet && pass == 1 && session % 20 == Patient % 20;
            var key = string.Create(CultureInfo.InvariantCulture, $"{session}-{pass}-");
            yield return Row(key + "done", "rt-sxn-done", "Suction done", at, "\"valueBoolean\":true");
            yield return Row(key + "sec", "rt-pass-sec", "Pass seconds", at, Quantity(isBreach ? "19" : "9", "s", "s"));
            yield return Row(key + "cath", "rt-cath-size", "Suction catheter size", at, Quantity("10", "Fr", "[Ch]"));
            yield return Row(key + "vac", "rt-wall-vac", "Wall vacuum reading", at, Quantity(isBreach ? "220" : "120", "mmHg", "mm[Hg]"));
            yield return Row(key + "how", "rt-vac-method", "Vacuum read how", at, Coded("a-occl", "Occluded"));
            yield return Row(key + "mode", "rt-reg-mode", "Regulator mode", at, Coded("a-cont", "Continuous, regulated"));
            yield return Row(key + "preox", "rt-preox", "Pre-oxygenated", at, "\"valueBoolean\":true");
            yield return Row(key + "colour", "rt-sec-colour", "Secretion colour", at, Coded("a-clear", "Clear"));
        }
    }

    private static string Coded(string code, string display) =>
        $$$"""
        "valueCodeableConcept":{"coding":[{"system":"https://willowmere.example.org/charting/answer","code":"{{{code}}}","display":"{{{display}}}"}],"text":"{{{display}}}"}
        """;

    private static string Quantity(string value, string unit, string code) =>
        $$"""
        "valueQuantity":{"value":{{value}},"unit":"{{unit}}","system":"http://unitsofmeasure.org","code":"{{code}}"}
        """;

    private Arrival Row(string key, string code, string display, DateTimeOffset at, string value)
    {
        var id = string.Create(CultureInfo.InvariantCulture, $"b{Patient}-{key}");
        return Of("Observation", id, at, $$$"""
            {"resourceType":"Observation","id":"{{{id}}}","meta":{"versionId":"1","lastUpdated":"{{{Time(at)}}}","profile":["https://willowmere.example.org/fhir/StructureDefinition/charted-row"]},"status":"final","category":[{"coding":[{"system":"http://terminology.hl7.org/CodeSystem/observation-category","code":"procedure","display":"Procedure"}]}],"code":{"coding":[{"system":"https://willowmere.example.org/charting/row","code":"{{{code}}}","display":"{{{display}}}"}],"text":"{{{display}}}"},"subject":{"reference":"{{{Name}}}"},"encounter":{"reference":"Encounter/b{{{Patient}}}"},"effectiveDateTime":"{{{Time(at)}}}","issued":"{{{Time(at)}}}","performer":[{"reference":"Practitioner/n7","display":"Charting nurse"}],{{{value}}}}
            """);
    }

    private static Arrival Of(string type, string id, DateTimeOffset at, string body) =>
        new(ArrivalKind.Resource, "https://fhir.willowmere.example.org/r4", type, id, "1", at, KnownBy.ServersStamp, Encoding.UTF8.GetBytes(body));

    private static string Time(DateTimeOffset at) => at.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);

    private static string Number(string before, int number) => before + number.ToString(CultureInfo.InvariantCulture);
}
