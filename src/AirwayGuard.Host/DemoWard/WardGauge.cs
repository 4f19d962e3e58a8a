namespace AirwayGuard.Host.DemoWard;

/// <summary>How a bed's vacuum is usually read.</summary>
/// <param name="Row">The flowsheet row.</param>
/// <param name="Usual">Usual occluded reading, in the unit; within every limit of the patient's age.</param>
/// <param name="Spread">Most that a reading lies off the usual one, in the unit.</param>
/// <param name="Unit">Unit text as the ward writes it.</param>
internal sealed record WardGauge(string Row, int Usual, int Spread, string Unit)
{
    public static WardGauge MmHg(int usual, int spread = 10) => new(WardRow.WallVacuum, usual, spread, "mmHg");

    public static WardGauge Kilopascal(int usual) => new(WardRow.WallVacuumKilopascal, usual, 1, "kPa");
}
