using System.Globalization;
using AirwayGuard.Core.Ports;
using static AirwayGuard.Benchmarks.Charting.PatientRows;

namespace AirwayGuard.Benchmarks.Charting;

/// <summary>
/// An invented adult's stay as a server would send it: a tube, and every two hours a session of three suction passes two minutes
/// apart, each a column of eight rows. Every twentieth session holds a pass that breaches, unless the stay is to be quiet.
/// </summary>
/// <param name="Patient">A number of its own.</param>
internal sealed record Stay(int Patient, bool IsQuiet)
{
    public const int PassesPerSession = 3, RowsPerPass = 8, RowsPerSession = PassesPerSession * RowsPerPass;

    /// <summary>Ten days of a session every two hours.</summary>
    public const int Sessions = 120;

    public static readonly DateTimeOffset Begins = new(2026, 3, 2, 8, 0, 0, TimeSpan.FromHours(1));

    private static readonly TimeSpan BetweenSessions = TimeSpan.FromHours(2), BetweenPasses = TimeSpan.FromMinutes(2);

    private readonly PatientRows _rows = new(string.Create(CultureInfo.InvariantCulture, $"b{Patient}"));

    public string Name => _rows.Name;

    /// <summary>The patient, the encounter and the rows of the tube.</summary>
    public IEnumerable<Arrival> Admission()
    {
        var at = Begins - TimeSpan.FromHours(1);
        yield return _rows.Patient("1961-05-04", at);
        yield return _rows.Encounter(at);
        yield return _rows.Row("type", "rt-tube-type", "Airway in place", at, Coded("a-ett", "Endotracheal tube"));
        yield return _rows.Row("size", "rt-tube-size", "Tube inner diameter", at, Quantity("8.0", "mm", "mm"));
    }

    /// <summary>The 24 rows of one session.</summary>
    /// <param name="session">From 0.</param>
    public IEnumerable<Arrival> Session(int session)
    {
        for (var pass = 0; pass < PassesPerSession; pass++)
        {
            var at = Begins + (session * BetweenSessions) + (pass * BetweenPasses);
            var isBreach = !IsQuiet && pass == 1 && session % 20 == Patient % 20;
            var key = string.Create(CultureInfo.InvariantCulture, $"{session}-{pass}-");
            yield return _rows.Row(key + "done", "rt-sxn-done", "Suction done", at, "\"valueBoolean\":true");
            yield return _rows.Row(key + "sec", "rt-pass-sec", "Pass seconds", at, Quantity(isBreach ? "19" : "9", "s", "s"));
            yield return _rows.Row(key + "cath", "rt-cath-size", "Suction catheter size", at, Quantity("10", "Fr", "[Ch]"));
            yield return _rows.Row(key + "vac", "rt-wall-vac", "Wall vacuum reading", at, Quantity(isBreach ? "220" : "120", "mmHg", "mm[Hg]"));
            yield return _rows.Row(key + "how", "rt-vac-method", "Vacuum read how", at, Coded("a-occl", "Occluded"));
            yield return _rows.Row(key + "mode", "rt-reg-mode", "Regulator mode", at, Coded("a-cont", "Continuous, regulated"));
            yield return _rows.Row(key + "preox", "rt-preox", "Pre-oxygenated", at, "\"valueBoolean\":true");
            yield return _rows.Row(key + "colour", "rt-sec-colour", "Secretion colour", at, Coded("a-clear", "Clear"));
        }
    }
}
