using System.Globalization;
using AirwayGuard.Host.DemoWard.Charting;
using static AirwayGuard.Host.DemoWard.Writing.ResourceJson;

namespace AirwayGuard.Host.DemoWard.Writing;

/// <summary>A patient and the stay.</summary>
internal static class PatientJson
{
    public static IEnumerable<WardResource> Of(PatientChart chart, WardClock clock) => [Patient(chart.Patient, clock), Stay(chart.Patient, clock)];

    private static WardResource Patient(WardPatient patient, WardClock clock) => Resource("Patient", patient.Key, json =>
    {
        json.Identifier("record-number", patient.RecordNumber);
        json.WriteBoolean("active", true);
        json.WriteStartArray("name");
        json.WriteStartObject();
        json.WriteString("use", "official");
        json.WriteString("family", patient.Family);
        json.WriteStartArray("given");
        json.WriteStringValue(patient.Given);
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteString("gender", patient.Gender);
        json.WriteString("birthDate", patient.BirthDate(clock).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
    });

    private static WardResource Stay(WardPatient patient, WardClock clock) => Resource("Encounter", patient.Encounter, json =>
    {
        var admitted = clock.Written(-patient.AdmittedHours * 60);
        json.Identifier("stay", patient.Encounter);
        json.WriteString("status", "in-progress");
        json.WriteStartObject("class");
        json.WriteString("system", "http://terminology.hl7.org/CodeSystem/v3-ActCode");
        json.WriteString("code", "IMP");
        json.WriteString("display", "inpatient encounter");
        json.WriteEndObject();
        json.Reference("subject", "Patient/" + patient.Key);
        json.Period("period", admitted);
        json.WriteStartArray("location");
        json.WriteStartObject();
        json.Reference("location", "Location/" + patient.Place);
        json.WriteString("status", "active");
        json.Period("period", admitted);
        json.WriteEndObject();
        json.WriteEndArray();
    });
}
