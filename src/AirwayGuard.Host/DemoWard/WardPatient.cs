namespace AirwayGuard.Host.DemoWard;

/// <summary>An invented patient.</summary>
/// <param name="Bed">Bed of the unit, from 1.</param>
/// <param name="Years">Whole years of age at the end of the 48 h.</param>
/// <param name="Days">Days of age besides the years.</param>
/// <param name="AdmittedHours">Hours from admission to the start of the 48 h.</param>
/// <param name="RoundEvery">Usual hours between suctions.</param>
/// <param name="Oxygen">Usual inspired oxygen, %.</param>
/// <param name="Story">What is out of the usual; null for nothing.</param>
internal sealed record WardPatient(
    WardUnit Unit, int Bed, string Given, string Family, string Gender, int Years, int Days, int AdmittedHours,
    WardAirway Airway, WardGauge Gauge, int RoundEvery, int Oxygen, Action<Charting.PatientChart>? Story = null)
{
    /// <summary>Id of the Patient, and stem of the ids of what is theirs.</summary>
    public string Key => FormattableString.Invariant($"{Unit.Key}-{Bed}");

    public string Encounter => "stay-" + Key;

    public string Place => "bed-" + Key;

    public string Regulator => "regulator-" + Key;

    public string RecordNumber => FormattableString.Invariant($"WM-{Unit.Key[0]}{40_100 + (Bed * 37)}").ToUpperInvariant();

    public DateOnly BirthDate(WardClock clock) => clock.EndDate.AddYears(-Years).AddDays(-Days);

    /// <summary>Says who by key only.</summary>
    public override string ToString() => $"WardPatient({Key})";
}
