namespace AirwayGuard.Core.Quantities;

/// <summary>The kind of a value; two units compare only within one dimension.</summary>
public enum Dimension : byte
{
    Code, YesNo, Pressure, Catheter, Length, Fraction, Count, Duration, Volume, VolumePerWeight, Rate, Weight, Date,
}
