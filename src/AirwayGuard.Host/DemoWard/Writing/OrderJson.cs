using AirwayGuard.Host.DemoWard.Charting;
using static AirwayGuard.Host.DemoWard.Writing.ResourceJson;

namespace AirwayGuard.Host.DemoWard.Writing;

/// <summary>The order to suction a patient's airway.</summary>
internal static class OrderJson
{
    private static readonly string[] Needs = ["Visible or audible secretions", "Coarse breath sounds", "High pressure alarm"];

    public static WardResource Of(PatientChart chart, WardClock clock) => Resource("ServiceRequest", "suction-" + chart.Patient.Key, json =>
    {
        json.Identifier("order", "suction-" + chart.Patient.Key);
        json.WriteString("status", "active");
        json.WriteString("intent", "order");
        json.Concept("code", "http://snomed.info/sct", "230040009", "Airway suction");
        json.Reference("subject", "Patient/" + chart.Patient.Key);
        json.Reference("encounter", "Encounter/" + chart.Patient.Encounter);
        if (chart.OrderedEveryHours is { } hours)
        {
            json.WriteStartObject("occurrenceTiming");
            json.WriteStartObject("repeat");
            json.WriteNumber("frequency", 1);
            json.WriteNumber("period", hours);
            json.WriteString("periodUnit", "h");
            json.WriteEndObject();
            json.WriteEndObject();
        }
        else if (chart.Patient.Bed % 2 == 0)
        {
            json.WriteBoolean("asNeededBoolean", true);
        }
        else
        {
            json.Words("asNeededCodeableConcept", Needs[chart.Patient.Bed % Needs.Length]);
        }

        json.WriteString("authoredOn", clock.Written((-chart.Patient.AdmittedHours * 60) + 25));
    });
}
