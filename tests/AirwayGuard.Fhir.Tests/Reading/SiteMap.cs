using System.Text;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>The map of the site whose rows the samples show, invented.</summary>
internal static class SiteMap
{
    public static MapSource Rows { get; } = new("site.json", Encoding.UTF8.GetBytes("""
        {"resourceType":"ConceptMap","status":"active","group":[
          {"source":"2.16.840.1.113883.3.9999.1.40","target":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","element":[
            {"code":"31001","target":[{"code":"vacuum-set","equivalence":"equivalent","product":[{"property":"https://airwayguard.example.org/fhir/property/default-unit","value":"mm[Hg]"}]}]},
            {"code":"31004","target":[{"code":"catheter-size","equivalence":"equivalent"}]},
            {"code":"31012","target":[{"code":"preoxygenation","equivalence":"equivalent"}]},
            {"code":"31099","target":[{"equivalence":"unmatched","comment":"Oral suction, out of scope"}]}]}]}
        """));
}
