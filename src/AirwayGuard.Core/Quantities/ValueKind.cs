namespace AirwayGuard.Core.Quantities;

/// <summary>What sort of thing a charted value is.</summary>
public enum ValueKind : byte
{
    /// <summary>No value was charted; the fact itself says something (a pass), or the value is absent for an unknown reason.</summary>
    Absent,

    /// <summary>Charted as not performed (dataAbsentReason <c>not-performed</c>): evidence of omission.</summary>
    NotPerformed,
    Number,

    /// <summary>A coded answer; <see cref="FactValue.Symbol"/> is an index of <see cref="Charting.Answers"/>.</summary>
    Code,

    /// <summary>Free text that counts as an answer of the person charting; the text itself stays with its source.</summary>
    Text,
    Yes,
    No,

    /// <summary>A calendar date of any precision: digits yyyymmdd, scale 4 (year), 6 (month) or 8 (day).</summary>
    Date,

    /// <summary>Something was charted that could not be read.</summary>
    Unreadable,
}
