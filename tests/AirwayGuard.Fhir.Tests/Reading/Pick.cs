using CsCheck;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>Generates one of the given values.</summary>
internal static class Pick
{
    public static Gen<T> From<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(index => values[index]);
}
