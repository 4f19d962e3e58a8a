using System.Globalization;
using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Core.Ports;
using static AirwayGuard.Benchmarks.Charting.PatientRows;

namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>
/// An invented adult who is still there: a tube of 8.0 mm charted once a shift, and ten suction passes a day, two or three hours apart,
/// with 12 rows each. A day is charted like any other, so that stays differ in their length alone.
/// </summary>
/// <param name="Id">Of the patient.</param>
/// <param name="Days">1 or more, up to <paramref name="Now"/>.</param>
internal sealed record HookStay(string Id, int Days, DateTimeOffset Now)
{
    private static readonly int[] PassHours = [0, 2, 5, 7, 10, 12, 14, 17, 19, 22];

    private readonly PatientRows _rows = new(Id);

    /// <summary>The row that is charted last, as a reference names it.</summary>
    public string LastRow => $"Observation/{All().Last().Id}";

    public IEnumerable<Arrival> All()
    {
        var begins = Now.AddDays(-Days);
        yield return _rows.Patient("1961-05-04", begins);
        yield return _rows.Encounter(begins);
        for (var day = 0; day < Days; day++)
        {
            foreach (var row in Shifts(day, begins.AddDays(day)).Concat(Passes(day, begins.AddDays(day))))
            {
                yield return row;
            }
        }
    }

    private IEnumerable<Arrival> Shifts(int day, DateTimeOffset from)
    {
        for (var hour = 0; hour < 24; hour += 8)
        {
            var (at, key) = (from.AddHours(hour), string.Create(CultureInfo.InvariantCulture, $"{day}-{hour}h-"));
            yield return _rows.Row(key + "type", "rt-tube-type", "Airway in place", at, Coded("a-ett", "Endotracheal tube"));
            yield return _rows.Row(key + "size", "rt-tube-size", "Tube inner diameter", at, Quantity("8.0", "mm", "mm"));
        }
    }

    private IEnumerable<Arrival> Passes(int day, DateTimeOffset from)
    {
        foreach (var hour in PassHours)
        {
            foreach (var row in Pass(string.Create(CultureInfo.InvariantCulture, $"{day}-{hour}p-"), from.AddHours(hour).AddMinutes(20)))
            {
                yield return row;
            }
        }
    }

    private IEnumerable<Arrival> Pass(string key, DateTimeOffset at)
    {
        yield return _rows.Row(key + "o-before", "rt-spo2", "SpO2", at.AddSeconds(-30), Quantity("96", "%", "%"));
        yield return _rows.Row(key + "h-before", "rt-hr", "Heart rate", at.AddSeconds(-30), Quantity("88", "/min", "/min"));
        yield return _rows.Row(key + "o2", "rt-o2-pct", "Oxygen %", at.AddSeconds(-30), Quantity("40", "%", "%"));
        yield return _rows.Row(key + "done", "rt-sxn-done", "Suction done", at, "\"valueBoolean\":true");
        yield return _rows.Row(key + "sec", "rt-pass-sec", "Pass seconds", at, Quantity("9", "s", "s"));
        yield return _rows.Row(key + "cath", "rt-cath-size", "Suction catheter size", at, Quantity("10", "Fr", "[Ch]"));
        yield return _rows.Row(key + "vac", "rt-wall-vac", "Wall vacuum reading", at, Quantity("120", "mmHg", "mm[Hg]"));
        yield return _rows.Row(key + "how", "rt-vac-method", "Vacuum read how", at, Coded("a-occl", "Occluded"));
        yield return _rows.Row(key + "mode", "rt-reg-mode", "Regulator mode", at, Coded("a-cont", "Continuous, regulated"));
        yield return _rows.Row(key + "preox", "rt-preox", "Pre-oxygenated", at, "\"valueBoolean\":true");
        yield return _rows.Row(key + "o-after", "rt-spo2", "SpO2", at.AddSeconds(60), Quantity("95", "%", "%"));
        yield return _rows.Row(key + "h-after", "rt-hr", "Heart rate", at.AddSeconds(60), Quantity("92", "/min", "/min"));
    }
}
