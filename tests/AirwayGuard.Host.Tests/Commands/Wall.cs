namespace AirwayGuard.Host.Tests.Commands;

/// <summary>Places, outlets and regulators of an invented wall, as FHIR resources.</summary>
internal static class Wall
{
    public static string Place(string id, string name, string? partOf = null, string kind = "bd", string? meta = null) => $$$"""
        {"resourceType":"Location","id":"{{{id}}}",{{{Meta(meta)}}}"name":"{{{name}}}","physicalType":{"coding":[{"system":"http://terminology.hl7.org/CodeSystem/location-physical-type","code":"{{{kind}}}"}]}{{{(partOf is null ? "" : $",\"partOf\":{{\"reference\":\"Location/{partOf}\"}}")}}} }
        """.Replace("\n", "", StringComparison.Ordinal);

    public static string Device(string id, string kind, string place) => $$$"""
        {"resourceType":"Device","id":"{{{id}}}","status":"active","type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/device-kind","code":"{{{kind}}}"}]},"location":{"reference":"Location/{{{place}}}"} }
        """.Replace("\n", "", StringComparison.Ordinal);

    /// <summary>A full-line reading; another row of a vacuum where a code is given.</summary>
    public static string Reading(string id, string about, string number, string at, string unit = "mmHg", string? device = null, string code = "full-line-vacuum", string status = "final", string? meta = null) => $$$"""
        {"resourceType":"Observation","id":"{{{id}}}",{{{Meta(meta)}}}"status":"{{{status}}}","code":{"coding":[{"system":"{{{Given.Row}}}","code":"{{{code}}}"}]},"subject":{"reference":"{{{about}}}"},"effectiveDateTime":"{{{at}}}","valueQuantity":{"value":{{{number}}},"unit":"{{{unit}}}"}{{{(device is null ? "" : $",\"device\":{{\"reference\":\"{device}\"}}")}}} }
        """.Replace("\n", "", StringComparison.Ordinal);

    private static string Meta(string? meta) => meta is null ? "" : $"\"meta\":{meta},";
}
