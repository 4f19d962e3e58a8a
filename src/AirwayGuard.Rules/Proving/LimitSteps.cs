using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Rules.Proving;

/// <summary>The smallest step in which a limit can be moved so that charting can show it.</summary>
internal static class LimitSteps
{
    /// <returns>In the limit's unit: 1 mm[Hg], 1 [Ch], 0.1 mm, 1 s, 0.01 of a fraction, 1 percentage point, 1 count.</returns>
    public static decimal Of(Unit unit) => unit switch
    {
        Unit.One => 0.01m,
        Unit.Millimetre or Unit.Centimetre => 0.1m,
        Unit.Kilopascal or Unit.InHg or Unit.CmHg => 0.2m,
        Unit.MillilitrePerKilogram or Unit.Millilitre => 0.01m,
        _ => 1m,
    };

    /// <summary>Another code that the measure can give; null where it gives one only.</summary>
    public static string? OtherCode(Measure measure, string code) => measure.Codes.FirstOrDefault(other => other != code);
}
