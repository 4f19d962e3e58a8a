using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Reads a time that a resource cannot do without, and tells what is wrong with it.</summary>
internal static class EffectiveTime
{
    public static bool TryRead(ReadOnlySpan<byte> text, string element, Scribe scribe, out long ticks, out short offsetMinutes)
    {
        switch (FhirTime.Read(text, out ticks, out offsetMinutes))
        {
            case TimeForm.Exact:
                return true;
            case TimeForm.NoOffset:
                scribe.Unreadable(Codes.TimeWithoutOffset, $"The {element} time has no offset, or is a date alone.");
                return false;
            default:
                scribe.Unreadable(Codes.NoTime, $"The {element} time is not written as FHIR writes times.");
                return false;
        }
    }
}
