namespace AirwayGuard.Core.Charting;

/// <summary>Marks on a fact that its value does not carry.</summary>
[Flags]
public enum FactMarks : ushort
{
    None = 0,

    /// <summary>A set value, not a measured one: its device is a DeviceMetric of category setting, or its code says setting.</summary>
    Setting = 1,

    /// <summary>The row's unit came from the map's default for the row, not from the row.</summary>
    UnitFromRow = 2,

    /// <summary>Charted with a minus sign.</summary>
    Negative = 4,

    /// <summary>Read from a string.</summary>
    FromText = 8,

    /// <summary>The source's code was mapped with equivalence inexact.</summary>
    Inexact = 16,

    /// <summary>Holds without a time of its own (a Device's property, a birth date).</summary>
    Timeless = 32,
}
