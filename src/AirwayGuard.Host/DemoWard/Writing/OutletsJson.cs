using static AirwayGuard.Host.DemoWard.Writing.ResourceJson;

namespace AirwayGuard.Host.DemoWard.Writing;

/// <summary>The wall outlet of each bed, and its full-line reading at the hospital's last survey of the wall; one bed was passed over.</summary>
internal static class OutletsJson
{
    private const string PassedOver = "rowan-3";

    // Days before the 48 h: each unit was walked on a day of its own.
    private const int AdultDay = 3, PaediatricDay = 9, NeonatalDay = 16;

    public static IEnumerable<WardResource> Of(WardPatient patient, WardClock clock)
    {
        var outlet = "outlet-" + patient.Key;
        yield return Resource("Device", outlet, json =>
        {
            json.Identifier("equipment", outlet);
            json.WriteString("status", "active");
            json.Concept("type", DeviceKind, "wall-vacuum-outlet", "wall vacuum outlet");
            json.Reference("location", "Location/" + patient.Place);
        });
        if (patient.Key != PassedOver)
        {
            yield return Reading(patient, outlet, clock);
        }
    }

    private static WardResource Reading(WardPatient patient, string outlet, WardClock clock) => Resource("Observation", "wall-" + patient.Key, json =>
    {
        var at = clock.Written((-DayOf(patient.Unit) * 24 * 60) + (patient.Bed * 7));
        json.Identifier("charting/wall", outlet);
        json.WriteString("status", "final");
        json.Concept("code", WardRow.System, "rt-outlet-full", "Outlet full-line vacuum");
        json.Reference("subject", "Device/" + outlet);
        json.WriteString("effectiveDateTime", at);
        json.WriteString("issued", at);
        json.WriteStartObject("valueQuantity");
        json.WriteNumber("value", patient.Unit == WardUnit.Paediatric ? 60 + patient.Bed : 430 + (patient.Bed * 15));
        json.WriteString("unit", patient.Unit == WardUnit.Paediatric ? "kPa" : "mmHg");
        json.WriteEndObject();
        if (patient.Unit.NamesRegulators)
        {
            json.Reference("device", "Device/" + patient.Regulator);
        }
    });

    private static int DayOf(WardUnit unit) => unit == WardUnit.Adult ? AdultDay : unit == WardUnit.Paediatric ? PaediatricDay : NeonatalDay;
}
