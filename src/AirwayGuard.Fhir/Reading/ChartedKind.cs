namespace AirwayGuard.Fhir.Reading;

/// <summary>Which form of value a row or component carries.</summary>
internal enum ChartedKind : byte
{
    None, Quantity, Integer, String, Concept, Boolean, DateTime,

    /// <summary>A form that no row is read from (Range, Ratio, Period, SampledData, time).</summary>
    Other,

    /// <summary>A form that is read, holding what the form does not allow (a number as text).</summary>
    Damaged,
}
