using static AirwayGuard.Host.DemoWard.Writing.ResourceJson;

namespace AirwayGuard.Host.DemoWard.Writing;

/// <summary>The hospital, its units and their beds.</summary>
internal static class PlacesJson
{
    public static IEnumerable<WardResource> Of(IReadOnlyList<WardPatient> patients)
    {
        yield return Place("willowmere", "Willowmere Hospital", "si", partOf: null);
        foreach (var unit in WardUnit.All)
        {
            yield return Place("unit-" + unit.Key, unit.Name, "wa", "willowmere");
        }

        foreach (var patient in patients)
        {
            yield return Place(patient.Place, FormattableString.Invariant($"{patient.Unit.Name}, bed {patient.Bed}"), "bd", "unit-" + patient.Unit.Key);
        }
    }

    private static WardResource Place(string id, string name, string kind, string? partOf) => Resource("Location", id, json =>
    {
        json.Identifier("place", id);
        json.WriteString("status", "active");
        json.WriteString("name", name);
        json.WriteString("mode", "instance");
        json.Concept("physicalType", "http://terminology.hl7.org/CodeSystem/location-physical-type", kind, kind switch
        {
            "si" => "Site",
            "wa" => "Ward",
            _ => "Bed",
        });
        if (partOf is not null)
        {
            json.Reference("partOf", "Location/" + partOf);
        }
    });
}
