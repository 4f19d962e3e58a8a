namespace AirwayGuard.Core.Quantities;

/// <summary>Units that charting of airway suction uses. <see cref="None"/>: no unit was charted; <see cref="Unknown"/>: one that is not in this list.</summary>
public enum Unit : byte
{
    None, Unknown,
    MmHg, CmH2O, Kilopascal, InHg, CmHg, Millibar, Hectopascal,
    French, Millimetre, Centimetre,
    Percent, One, Count,
    Second, Minute, Hour, Day, Week, Month,
    Millilitre, MillilitrePerKilogram, PerMinute, Kilogram, Gram,
}
