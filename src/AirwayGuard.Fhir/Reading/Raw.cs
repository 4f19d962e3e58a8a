using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Primitive values as they stand in the JSON: the SDK's typed getters throw where a recovered value is not valid.</summary>
internal static class Raw
{
    public static string? Text(PrimitiveType? primitive) => primitive?.JsonValue as string;

    public static bool? Truth(PrimitiveType? primitive) => primitive?.JsonValue as bool?;

    public static decimal? Number(PrimitiveType? primitive) => primitive?.JsonValue switch
    {
        decimal number => number,
        int number => number,
        long number => number,
        _ => null,
    };

    /// <summary>The security label of health data made for tests (HL7 v3 ActReason HTEST).</summary>
    public static bool IsTestData(Resource resource) =>
        resource.Meta?.Security.Exists(label => Text(label.CodeElement) == "HTEST") == true;
}
