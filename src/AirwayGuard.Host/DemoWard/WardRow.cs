namespace AirwayGuard.Host.DemoWard;

/// <summary>Flowsheet rows of Willowmere: those of the demo-rows map, and a few that no map knows.</summary>
internal static class WardRow
{
    public const string System = "https://willowmere.example.org/charting/row";

    public const string WallVacuum = "rt-wall-vac";
    public const string WallVacuumKilopascal = "rt-wall-vac-kpa";
    public const string VacuumSet = "rt-vac-set";
    public const string RegulatorMode = "rt-reg-mode";
    public const string VacuumMethod = "rt-vac-method";
    public const string SuctionUse = "rt-sxn-use";
    public const string GastricVacuum = "rt-gastric-vac";
    public const string CatheterSize = "rt-cath-size";
    public const string SuctionSystem = "rt-sxn-system";
    public const string TubeType = "rt-tube-type";
    public const string TubeSize = "rt-tube-size";
    public const string CuffPressure = "rt-cuff";
    public const string SuctionDone = "rt-sxn-done";
    public const string PassSeconds = "rt-pass-sec";
    public const string Oxygen = "rt-o2-pct";
    public const string Peep = "rt-peep";
    public const string Spo2 = "rt-spo2";
    public const string HeartRate = "rt-hr";
    public const string Breaths = "rt-rr";
    public const string Indication = "rt-why";
    public const string SecretionColour = "rt-sec-colour";
    public const string SecretionAmount = "rt-sec-amount";
    public const string SecretionThickness = "rt-sec-thick";
    public const string AirwaySeen = "rt-airway-seen";
    public const string GestationalAge = "rt-gest-age";
    public const string Weight = "rt-weight";

    public const string Turned = "nu-turned";
    public const string Comfort = "nu-comfort";
    public const string Intake = "nu-intake-ml";

    private static readonly Dictionary<string, string> Displays = new(StringComparer.Ordinal)
    {
        [WallVacuum] = "Wall vacuum reading",
        [WallVacuumKilopascal] = "Wall vacuum reading, kPa gauge",
        [VacuumSet] = "Vacuum set on regulator",
        [RegulatorMode] = "Regulator mode",
        [VacuumMethod] = "Vacuum read how",
        [SuctionUse] = "Suction used for",
        [GastricVacuum] = "Gastric suction pressure",
        [CatheterSize] = "Suction catheter size",
        [SuctionSystem] = "Suction system",
        [TubeType] = "Airway in place",
        [TubeSize] = "Tube inner diameter",
        [CuffPressure] = "Cuff pressure",
        [SuctionDone] = "Suction done",
        [PassSeconds] = "Pass seconds",
        [Oxygen] = "Oxygen %",
        [Peep] = "PEEP",
        [Spo2] = "SpO2",
        [HeartRate] = "Heart rate",
        [Breaths] = "Respiratory rate",
        [Indication] = "Why suctioned",
        [SecretionColour] = "Secretion colour",
        [SecretionAmount] = "Secretion amount",
        [SecretionThickness] = "Secretion consistency",
        [AirwaySeen] = "Airway assessed",
        [GestationalAge] = "Gestational age at birth",
        [Weight] = "Body weight",
        [Turned] = "Turned",
        [Comfort] = "Comfort score",
        [Intake] = "Intake",
    };

    /// <summary>Rows that no map knows: they are counted, not judged.</summary>
    public static readonly IReadOnlyList<string> Unmapped = [Turned, Comfort, Intake];

    public static IEnumerable<string> All => Displays.Keys;

    public static string Display(string row) => Displays[row];

    /// <summary>True for rows that speak of a regulator and name it where the unit does.</summary>
    public static bool IsOfRegulator(string row) =>
        row is WallVacuum or WallVacuumKilopascal or VacuumSet or RegulatorMode or VacuumMethod or SuctionUse or GastricVacuum;
}
