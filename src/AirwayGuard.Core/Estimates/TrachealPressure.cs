using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Estimates;

/// <summary>
/// A rough estimate of how much of a vacuum reaches the trachea in open suction. With r = outside diameter of the catheter over the inner
/// diameter in use, and h = r⁴ / (1 − r²)², the share is C·h / (1 + C·h): one constant, fitted to a bench.
/// <list type="bullet">
/// <item>nakstad-2017: Nakstad, BMJ Open Respir Res 2017;4:e000176, table 1. Open suction, tube disconnected and clean; tubes of 7, 8 and
/// 9 mm, catheters of 12, 14 and 16 Fr, vacuum of 382 and 765 cm[H2O]: 18 values, on which C = 0.019 is the least-squares fit of the
/// logarithms. The model misses them by a factor of 1.71 at most (9 mm, 12 Fr, 765 cm[H2O]) and of 1.2 typically.</item>
/// <item>kiraly-2008: Kiraly, Pediatr Res 2008;64:29-33. Tracheal pressure is proportional to the applied vacuum from 80 to 200 mm[Hg]; it
/// carries the estimate below the bench's own vacuum.</item>
/// </list>
/// Secretions make it worse and unpredictable (Palazzo &amp; Soni, Anaesthesia 2013;68:576-84). It is no limit, and no verdict rests on it.
/// </summary>
public static class TrachealPressure
{
    /// <summary>The narrowest and the widest tube on the bench, mm.</summary>
    public const decimal LeastMillimetres = 7m, MostMillimetres = 9m;

    /// <summary>The thinnest and the thickest catheter on the bench, Fr. With the tubes they bound the ratio: 12/27 to 16/21.</summary>
    public const decimal LeastFrench = 12m, MostFrench = 16m;

    /// <summary>The weakest vacuum for which proportion was shown, mm[Hg].</summary>
    public const decimal LeastMmHg = 80m;

    /// <summary>The deepest vacuum on the bench, cm[H2O].</summary>
    public const decimal MostCmH2O = 765m;

    /// <summary>The largest factor by which the model misses a value of the bench, either way.</summary>
    public const decimal MostMiss = 1.71m;

    // The finest step in which the bench told its values, cm[H2O].
    private const decimal Finest = 0.5m;

    private const decimal Constant = 0.019m;

    /// <summary>Share of the vacuum that reaches the trachea, 0 to 1, whatever the vacuum.</summary>
    /// <param name="ratio">Catheter over tube, above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">No ratio at which a catheter lies in a tube.</exception>
    public static decimal Share(decimal ratio)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(ratio);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(ratio, 1m);
        var area = ratio * ratio;
        var flow = Constant * area * area / ((1m - area) * (1m - area));
        return flow / (1m + flow);
    }

    /// <summary>The estimate for one catheter, tube and vacuum.</summary>
    /// <param name="french">Outside diameter in thirds of a millimetre (ISO 8836).</param>
    /// <param name="millimetres">Inner diameter in use.</param>
    /// <param name="vacuum">Either sign.</param>
    /// <returns>Null outside what the benches covered, the bounds themselves covered.</returns>
    public static PressureEstimate? Of(decimal french, decimal millimetres, decimal vacuum, Unit unit)
    {
        if (french is < LeastFrench or > MostFrench || millimetres is < LeastMillimetres or > MostMillimetres || !Units.IsPressure(unit)
            || Vacuum.ToMmHg(vacuum, unit) < LeastMmHg)
        {
            return null;
        }

        var applied = Vacuum.Convert(Math.Abs(vacuum), unit, Unit.CmH2O);
        if (applied > MostCmH2O)
        {
            return null;
        }

        var tracheal = applied * Share(french / (3m * millimetres));
        return new PressureEstimate(
            tracheal < Finest / 2m ? null : Nearest(tracheal), Down(tracheal / MostMiss), Up(tracheal * MostMiss), french, millimetres, Math.Abs(vacuum), unit);
    }

    private static decimal Nearest(decimal amount) => Math.Round(amount / StepAt(amount), MidpointRounding.AwayFromZero) * StepAt(amount);

    private static decimal Down(decimal amount) => Math.Floor(amount / StepAt(amount)) * StepAt(amount);

    private static decimal Up(decimal amount) => Math.Ceiling(amount / StepAt(amount)) * StepAt(amount);

    // One digit, halves after a one: more than that the error does not allow.
    private static decimal StepAt(decimal amount) => amount switch
    {
        < 2m => Finest,
        < 10m => 1m,
        < 20m => 5m,
        _ => 10m,
    };
}
