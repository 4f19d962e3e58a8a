namespace AirwayGuard.Fhir.Reading;

/// <summary>A stretch of a row's text; length 0 where nothing is there.</summary>
internal readonly record struct Slice(int Start, int Length)
{
    public bool IsEmpty => Length == 0;
}
