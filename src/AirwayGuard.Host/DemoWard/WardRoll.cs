using AirwayGuard.Host.DemoWard.Stories;
using static AirwayGuard.Host.DemoWard.WardAirway;
using static AirwayGuard.Host.DemoWard.WardGauge;
using static AirwayGuard.Host.DemoWard.WardUnit;

namespace AirwayGuard.Host.DemoWard;

/// <summary>The twelve invented patients of Willowmere. Who has no story is charted within policy throughout.</summary>
internal static class WardRoll
{
    public static readonly IReadOnlyList<WardPatient> Patients =
    [
        new(Adult, 1, "Ottmar", "Thrushgrove", "male", 58, 40, 31, Tube("8.0mm", 8.0m, "12 Fr", asDevice: true), MmHg(115), 8, 40, FullLineLeft.Tell),
        new(Adult, 2, "Perpetua", "Saltmarrow", "female", 71, 112, 20, Tube("7.5mm", 7.5m, "10 Fr"), MmHg(110), 8, 35, HighVacuum.Tell),
        new(Adult, 3, "Leopoldine", "Quarrenby", "female", 46, 9, 0, Tracheostomy("10.0mm", 10.0m, "14 Fr"), MmHg(110), 8, 30, InnerCannulaPlaced.Tell),
        new(Adult, 4, "Cuthwin", "Ashplatt", "male", 64, 201, 52, Tube("8.5mm", 8.5m, "12 Fr"), MmHg(105), 6, 45, SlowBloodTrend.Tell),
        new(Adult, 5, "Damaris", "Fellwether", "female", 39, 77, 18, Tube("8.0 mm", 8.0m, "12 Fr"), MmHg(110), 8, 40, GastricBeside.Tell),
        new(Adult, 6, "Ignatz", "Coppermoor", "male", 67, 300, 44, Tube("7.0mm", 7.0m, "10 Fr"), MmHg(120), 8, 35, LongPass.Tell),
        new(Paediatric, 1, "Tansy", "Windlecombe", "female", 9, 55, 26, Tube("6.0mm", 6.0m, "8 Fr", asDevice: true), MmHg(95), 8, 35, OrderedByClock.Tell),
        new(Paediatric, 2, "Jorin", "Hexthwaite", "male", 4, 180, 37, Tube("5.0mm", 5.0m, "6 Fr"), Kilopascal(12), 8, 30, PreoxygenationMissed.Tell),
        new(Paediatric, 3, "Elowyn", "Brackwater", "female", 0, 214, 22, Tube("4.0mm", 4.0m, "8 Fr"), MmHg(80), 8, 35, UnitUnusable.Tell),
        new(Neonatal, 1, "Ambrin", "Larkhollow", "female", 0, 7, 30, Tube("3.5mm", 3.5m, "6 Fr"), MmHg(65, 8), 8, 28, NeonateOverCeiling.Tell),
        new(Neonatal, 2, "Tobin", "Gorseway", "male", 0, 19, 200, Tube("3.0mm", 3.0m, "6 Fr", asDevice: true), MmHg(60, 8), 8, 30, ChartedLate.Tell),
        new(Neonatal, 3, "Sunniva", "Mossgarth", "female", 0, 4, 12, Tube("3.5 mm", 3.5m, "6 Fr"), MmHg(65, 8), 8, 25, DurationCorrected.Tell),
    ];
}
