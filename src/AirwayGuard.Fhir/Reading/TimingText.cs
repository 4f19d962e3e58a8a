using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The text of a timing that gives nothing structured: it is read with the order's other texts.</summary>
internal static class TimingText
{
    /// <returns>Null where there is none, or where the timing is read without it.</returns>
    public static string? Of(DataType? occurrence) =>
        occurrence is Timing { ModifierExtension.Count: 0 } timing && !OrderTimingReader.IsStructured(timing) ? Raw.Text(timing.Code?.TextElement) : null;
}
