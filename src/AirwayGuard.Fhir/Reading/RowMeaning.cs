using AirwayGuard.Core.Charting;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What the codings of a row mean: AirwayGuard's own code first, else the first that a map gives a meaning.</summary>
internal static class RowMeaning
{
    public static bool TryFind(ObservationRow row, Stretch codes, CodeMap map, out RowMapping mapping, out ChartedCoding coding)
    {
        mapping = default;
        coding = default;
        var isFound = false;
        foreach (var candidate in row.In(codes))
        {
            if (map.TryRow(row[candidate.System], row[candidate.Code], out var found))
            {
                var isOwn = IsOwn(row[candidate.System]);
                if (!isFound || isOwn)
                {
                    (mapping, coding, isFound) = (found, candidate, true);
                }

                if (isOwn)
                {
                    break;
                }
            }
        }

        return isFound;
    }

    /// <summary>The row's own code as an entity, <c>system|code</c>: which flowsheet row a value stands in.</summary>
    public static Entity CodeOf(ObservationRow row, ChartedCoding coding, Scribe scribe)
    {
        Span<byte> key = stackalloc byte[coding.System.Length + coding.Code.Length + 128];
        var length = scribe.Map.Compose(row[coding.System], row[coding.Code], key);
        return scribe.Intern(EntityKind.RowCode, key[..length]);
    }

    private static bool IsOwn(ReadOnlySpan<byte> system) =>
        system.SequenceEqual("https://airwayguard.example.org/fhir/CodeSystem/airway-care"u8);
}
