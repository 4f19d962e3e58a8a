using System.Text.Json;
using AirwayGuard.Host.DemoWard.Charting;
using static AirwayGuard.Host.DemoWard.Writing.ResourceJson;

namespace AirwayGuard.Host.DemoWard.Writing;

/// <summary>Regulators at the bed, and tubes where they are recorded as devices.</summary>
internal static class DevicesJson
{
    /// <summary>Minutes before the 48 h at which every regulator was last calibrated: some two months.</summary>
    private const int CalibratedBefore = 60 * 24 * 60;

    public static IEnumerable<WardResource> Of(PatientChart chart, WardClock clock)
    {
        var patient = chart.Patient;
        yield return Regulator(patient, patient.Regulator, clock);
        if (chart.StreamedMetric is { } metric)
        {
            yield return Metric(patient, metric, clock);
        }

        if (chart.GastricRegulator is { } gastric)
        {
            yield return Regulator(patient, gastric, clock);
        }

        if (patient.Airway.AsDevice)
        {
            var kind = patient.Airway.IsTracheostomy ? "tracheostomy-tube" : "tracheal-tube";
            yield return Tube("tube-" + patient.Key, kind, "tube-inner-diameter", patient.Airway.Millimetres);
            yield return Use(patient, "tube-" + patient.Key, clock.Written(-patient.AdmittedHours * 60));
        }

        if (chart.InnerCannula is { } cannula)
        {
            yield return Tube("cannula-" + patient.Key, "inner-cannula", "inner-cannula-diameter", cannula.Millimetres);
            yield return Use(patient, "cannula-" + patient.Key, clock.Written(cannula.Since));
        }
    }

    private static WardResource Regulator(WardPatient patient, string id, WardClock clock) => Device(id, "vacuum-regulator", json =>
    {
        json.WriteStartArray("property");
        json.WriteStartObject();
        json.Concept("type", AirwayCare, "calibrated-on", "Calibrated on");
        json.WriteStartArray("valueCode");
        json.WriteStartObject();
        json.WriteString("text", clock.Written(-CalibratedBefore)[..10]);
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndArray();
        json.Reference("location", "Location/" + patient.Place);
    });

    private static WardResource Metric(WardPatient patient, string id, WardClock clock) => Resource("DeviceMetric", id, json =>
    {
        json.Identifier("equipment", id);
        json.Concept("type", WardRow.System, WardRow.VacuumSet, WardRow.Display(WardRow.VacuumSet));
        json.Concept("unit", Ucum, "mm[Hg]", "mmHg");
        json.Reference("source", "Device/" + patient.Regulator);
        json.WriteString("operationalStatus", "on");
        json.WriteString("category", "setting");
        json.WriteStartArray("calibration");
        json.WriteStartObject();
        json.WriteString("type", "two-point");
        json.WriteString("state", "calibrated");
        json.WriteString("time", clock.Written(-CalibratedBefore, byMonitor: true));
        json.WriteEndObject();
        json.WriteEndArray();
    });

    private static WardResource Tube(string id, string kind, string property, decimal millimetres) => Device(id, kind, json =>
    {
        json.WriteStartArray("property");
        json.WriteStartObject();
        json.Concept("type", AirwayCare, property, "Inner diameter");
        json.WriteStartArray("valueQuantity");
        json.WriteStartObject();
        json.WriteNumber("value", millimetres);
        json.WriteString("unit", "mm");
        json.WriteString("system", Ucum);
        json.WriteString("code", "mm");
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndArray();
    });

    private static WardResource Device(string id, string kind, Action<Utf8JsonWriter> rest) => Resource("Device", id, json =>
    {
        json.Identifier("equipment", id);
        json.WriteString("status", "active");
        json.Concept("type", DeviceKind, kind, kind.Replace('-', ' '));
        rest(json);
    });

    private static WardResource Use(WardPatient patient, string device, string since) => Resource("DeviceUseStatement", "use-of-" + device, json =>
    {
        json.WriteString("status", "active");
        json.Reference("subject", "Patient/" + patient.Key);
        json.Period("timingPeriod", since);
        json.WriteString("recordedOn", since);
        json.Reference("device", "Device/" + device);
    });
}
