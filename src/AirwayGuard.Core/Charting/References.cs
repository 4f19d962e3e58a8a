namespace AirwayGuard.Core.Charting;

/// <summary>Which kind of entity a FHIR resource type is.</summary>
public static class References
{
    public static EntityKind KindOf(ReadOnlySpan<char> resourceType) => resourceType switch
    {
        "Patient" => EntityKind.Patient,
        "Location" => EntityKind.Place,
        "Device" => EntityKind.Device,
        "DeviceMetric" => EntityKind.Metric,
        "Encounter" => EntityKind.Encounter,
        "ServiceRequest" or "DeviceRequest" => EntityKind.Order,
        "Procedure" => EntityKind.Act,
        "Observation" => EntityKind.Row,
        "Practitioner" or "PractitionerRole" => EntityKind.Practitioner,
        _ => EntityKind.Statement,
    };
}
