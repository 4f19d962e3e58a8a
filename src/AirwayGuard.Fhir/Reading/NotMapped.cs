using System.Runtime.InteropServices;
using AirwayGuard.Fhir.Terminology;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Notes what no map knows, by its first code. What a map leaves out on purpose is known.</summary>
internal static class NotMapped
{
    /// <summary>Of a row its own code, unless it only holds others together, and every component that has a value.</summary>
    public static void Note(ObservationRow row, Scribe scribe)
    {
        foreach (ref readonly var value in CollectionsMarshal.AsSpan(row.Values))
        {
            var holdsOthers = row.Values.Count > 1 || row.HasMember.Count > 0;
            var isRow = value.Kind != ChartedKind.None || (value.Ordinal == 0 && !holdsOthers);
            if (isRow && !IsKnown(row, value.Code, scribe.Map))
            {
                Note(row, value.Code, scribe);
            }
        }
    }

    /// <summary>Of a resource whose code says whether it is of interest.</summary>
    /// <param name="isNamedByText">A text alone names it too, as of orders; else it is no code.</param>
    public static void Note(CodeableConcept? code, Desk desk, bool isNamedByText = false)
    {
        desk.Row.Begin();
        var codes = PocoRow.Codings(desk.Row, code);
        if (codes.Count == 0 && isNamedByText)
        {
            desk.Scribe.Into.NotMapped.Add("");
        }
        else if (codes.Count > 0 && !IsKnown(desk.Row, codes, desk.Scribe.Map))
        {
            Note(desk.Row, codes, desk.Scribe);
        }
    }

    private static void Note(ObservationRow row, Stretch codes, Scribe scribe)
    {
        var first = row.In(codes) is [var coded, ..] ? coded : default;
        scribe.Into.NotMapped.Add(first.Code.IsEmpty ? "" : $"{scribe.Map.Canonical(row.Text(first.System))}|{row.Text(first.Code)}");
    }

    // A misspelt code of our own has its own problem.
    private static bool IsKnown(ObservationRow row, Stretch codes, CodeMap map)
    {
        if (RowMeaning.TryFind(row, codes, map, out _, out _, out _) || RowMeaning.HasUnknown(row, codes, map))
        {
            return true;
        }

        foreach (var coding in row.In(codes))
        {
            if (map.IsIgnored(row.Text(coding.System), row.Text(coding.Code)))
            {
                return true;
            }
        }

        return false;
    }
}
