using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What the codings of a row mean: AirwayGuard's own code first, else the first that a map gives a meaning.</summary>
internal static class RowMeaning
{
    // Of a longer one, or of one with anything else in it, nobody knows what it is.
    private const int LongestQuoted = 48;

    /// <param name="other">Another concept that a further coding of the same code stands for; null where all agree.</param>
    public static bool TryFind(
        ObservationRow row, Stretch codes, CodeMap map, out RowMapping mapping, out ChartedCoding coding, out Concept? other)
    {
        mapping = default;
        coding = default;
        other = null;
        var (isFound, isOwn) = (false, false);
        foreach (var candidate in row.In(codes))
        {
            if (!map.TryRow(row[candidate.System], row[candidate.Code], out var found))
            {
                continue;
            }

            var before = mapping.Concept;
            var isDifferent = isFound && found.Concept != before;
            if (!isFound || (!isOwn && IsOwn(row[candidate.System])))
            {
                (mapping, coding, isFound, isOwn) = (found, candidate, true, IsOwn(row[candidate.System]));
                other = isDifferent ? before : other;
            }
            else if (isDifferent)
            {
                other ??= found.Concept;
            }
        }

        return isFound;
    }

    /// <summary>Whether one of the codings is of AirwayGuard's own code system and no code of it.</summary>
    public static bool HasUnknown(ObservationRow row, Stretch codes, CodeMap map)
    {
        foreach (var coding in row.In(codes))
        {
            if (IsUnknown(row, coding, map))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Tells of a code of AirwayGuard's own code system that does not exist, with the one it is near to.</summary>
    /// <param name="path">Where the codings stand in the resource.</param>
    /// <returns>True where there is one.</returns>
    public static bool TellUnknown(ObservationRow row, Stretch codes, string path, Scribe scribe)
    {
        var index = 0;
        foreach (var coding in row.In(codes))
        {
            if (IsUnknown(row, coding, scribe.Map))
            {
                TellUnknown(
                    row.Text(coding.Code), string.Create(CultureInfo.InvariantCulture, $"{path}.coding[{index}]"), "airway-care",
                    Concepts.Table.ToArray().Where(info => info.IsInput).Select(info => info.Code), scribe);
                return true;
            }

            index++;
        }

        return false;
    }

    /// <summary>Tells of one code that one of AirwayGuard's own code systems does not have.</summary>
    /// <param name="known">The codes it has.</param>
    public static void TellUnknown(string code, string where, string system, IEnumerable<string> known, Scribe scribe)
    {
        var near = NearWord.Find(code, known);
        scribe.Problem(
            Codes.OwnCodeUnknown,
            $"At {where} stands {(IsPlain(code) ? code : "what is no code")}, which {system} does not have.{(near is null ? "" : $" Did you mean {near}?")}");
    }

    /// <summary>The row's own code as an entity, <c>system|code</c>: which flowsheet row a value stands in.</summary>
    public static Entity CodeOf(ObservationRow row, ChartedCoding coding, Scribe scribe)
    {
        Span<byte> key = stackalloc byte[coding.System.Length + coding.Code.Length + 128];
        var length = scribe.Map.Compose(row[coding.System], row[coding.Code], key);
        return scribe.Intern(EntityKind.RowCode, key[..length]);
    }

    // Whether a tube has a cuff is a property of ours that nothing is judged by.
    private static bool IsUnknown(ObservationRow row, in ChartedCoding coding, CodeMap map) =>
        IsOwn(row[coding.System]) && !map.TryRow(row[coding.System], row[coding.Code], out _) && !row[coding.Code].SequenceEqual("cuff"u8);

    private static bool IsOwn(ReadOnlySpan<byte> system) =>
        system.SequenceEqual("https://airwayguard.example.org/fhir/CodeSystem/airway-care"u8);

    private static bool IsPlain(string code) =>
        code.Length is > 0 and <= LongestQuoted && code.All(character => char.IsAsciiLetterOrDigit(character) || character is '-' or '_' or '.');
}
