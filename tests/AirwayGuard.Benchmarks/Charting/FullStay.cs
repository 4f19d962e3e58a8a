using System.Globalization;
using AirwayGuard.Core.Ports;
using static AirwayGuard.Benchmarks.Charting.PatientRows;

namespace AirwayGuard.Benchmarks.Charting;

/// <summary>
/// An invented adult's stay charted in full: saturation and heart rate every 5 minutes as a monitor sends them, breathing every 10,
/// the ventilator every hour, an assessment of the airway every 2, the cuff every 8, and 5 to 8 sessions a day of one to three passes
/// with 19 rows each. About one pass in eight breaks something, unless the stay is to be quiet. The same numbers give the same rows.
/// </summary>
/// <param name="Patient">A number of its own; it decides on age, airway and what goes wrong.</param>
/// <param name="Begins">Midnight of the first day.</param>
/// <param name="Days">1 or more.</param>
/// <param name="Seed">Another seed, another unit.</param>
internal sealed record FullStay(int Patient, DateTimeOffset Begins, int Days, int Seed, bool IsQuiet)
{
    private readonly PatientRows _rows = new(string.Create(CultureInfo.InvariantCulture, $"u{Patient}"));

    public string Name => _rows.Name;

    private bool HasTracheostomy => Patient % 5 == 0;

    /// <summary>The patient, the encounter and what is on file about the airway.</summary>
    public IEnumerable<Arrival> Admission()
    {
        var at = Begins;
        yield return _rows.Patient(string.Create(CultureInfo.InvariantCulture, $"{1935 + (Patient % 60)}-05-04"), at);
        yield return _rows.Encounter(at);
        yield return _rows.Row("type", "rt-tube-type", "Airway in place", at, HasTracheostomy ? Coded("a-trach", "Tracheostomy") : Coded("a-ett", "Endotracheal tube"));
        yield return _rows.Row("size", "rt-tube-size", "Tube inner diameter", at, Quantity("8.0", "mm", "mm"));
        yield return _rows.Row("inner", "rt-inner-in", "Inner cannula in place", at, "\"valueBoolean\":false");
        yield return _rows.Row("length", "rt-tube-length", "Tube length", at, Quantity("27", "cm", "cm"));
        yield return _rows.Row("adapter", "rt-adapter-length", "Adapter length", at, Quantity("4", "cm", "cm"));
    }

    /// <summary>The rows of one day, about a thousand, by time.</summary>
    /// <param name="day">From 0.</param>
    public IEnumerable<Arrival> Day(int day) => Rows(day).OrderBy(row => row.KnownAt);

    public Arrival Discharge() => _rows.Discharge(Begins, Begins.AddDays(Days));

    private IEnumerable<Arrival> Rows(int day)
    {
        var random = new Random(unchecked((((Seed * 1_000_003) + Patient) * 1_009) + day));
        var (from, key) = (Begins.AddDays(day), string.Create(CultureInfo.InvariantCulture, $"{day}-"));
        foreach (var row in Monitor(key, from, random).Concat(Rounds(key, from)))
        {
            yield return row;
        }

        var sessions = IsQuiet ? 5 : random.Next(5, 9);
        for (var session = 0; session < sessions; session++)
        {
            var at = from.AddMinutes((1440 / sessions * session) + random.Next(5, 45));
            var passes = random.Next(1, 4);
            for (var pass = 0; pass < passes; pass++)
            {
                foreach (var row in Pass(string.Create(CultureInfo.InvariantCulture, $"{key}s{session}-{pass}-"), at.AddMinutes(2 * pass), random))
                {
                    yield return row;
                }
            }
        }
    }

    private IEnumerable<Arrival> Monitor(string key, DateTimeOffset from, Random random)
    {
        for (var minute = 0; minute < 1440; minute += 5)
        {
            var at = from.AddMinutes(minute);
            var own = key + minute.ToString(CultureInfo.InvariantCulture);
            yield return _rows.Row(own + "o", "rt-spo2", "SpO2", at, Quantity(Number(random.Next(94, 98)), "%", "%"));
            yield return _rows.Row(own + "h", "rt-hr", "Heart rate", at, Quantity(Number(random.Next(70, 110)), "/min", "/min"));
            if (minute % 10 == 0)
            {
                yield return _rows.Row(own + "r", "rt-rr", "Respiratory rate", at, Quantity(Number(random.Next(12, 22)), "/min", "/min"));
            }
        }
    }

    private IEnumerable<Arrival> Rounds(string key, DateTimeOffset from)
    {
        for (var hour = 0; hour < 24; hour++)
        {
            var at = from.AddHours(hour);
            var own = string.Create(CultureInfo.InvariantCulture, $"{key}{hour}h-");
            yield return _rows.Row(own + "o2", "rt-o2-pct", "Oxygen %", at, Quantity("40", "%", "%"));
            yield return _rows.Row(own + "peep", "rt-peep", "PEEP", at, Quantity("7", "cmH2O", "cm[H2O]"));
            if (hour % 2 == 0)
            {
                yield return _rows.Row(own + "seen", "rt-airway-seen", "Airway assessed", at, "\"valueBoolean\":true");
            }

            if (hour % 8 == 0)
            {
                yield return _rows.Row(own + "cuff", "rt-cuff", "Cuff pressure", at, Quantity("25", "cmH2O", "cm[H2O]"));
                yield return _rows.Row(own + "mark", "rt-tube-mark", "Tube mark at lips", at, Quantity("22", "cm", "cm"));
            }
        }
    }

    private IEnumerable<Arrival> Pass(string key, DateTimeOffset at, Random random)
    {
        bool Goes(double share) => !IsQuiet && random.NextDouble() < share;
        yield return _rows.Row(key + "done", "rt-sxn-done", "Suction done", at, "\"valueBoolean\":true");
        yield return _rows.Row(key + "sec", "rt-pass-sec", "Pass seconds", at, Quantity(Number(Goes(0.02) ? random.Next(16, 26) : random.Next(6, 14)), "s", "s"));
        yield return _rows.Row(key + "cath", "rt-cath-size", "Suction catheter size", at, Quantity(Goes(0.005) ? "14" : "10", "Fr", "[Ch]"));
        yield return _rows.Row(key + "vac", "rt-wall-vac", "Wall vacuum reading", at, Quantity(Goes(0.01) ? "220" : "120", "mmHg", "mm[Hg]"));
        yield return _rows.Row(key + "how", "rt-vac-method", "Vacuum read how", at, Goes(0.01) ? Coded("a-flow", "Free flow") : Coded("a-occl", "Occluded"));
        yield return _rows.Row(key + "mode", "rt-reg-mode", "Regulator mode", at, Goes(0.002) ? Coded("a-full", "Full") : Coded("a-cont", "Continuous, regulated"));
        if (!Goes(0.02))
        {
            yield return _rows.Row(key + "preox", "rt-preox", "Pre-oxygenated", at, "\"valueBoolean\":true");
        }

        yield return _rows.Row(key + "preoxsec", "rt-preox-sec", "Pre-oxygenated for", at, Quantity(Goes(0.01) ? "20" : "45", "s", "s"));
        if (!Goes(0.01))
        {
            yield return _rows.Row(key + "why", "rt-why", "Why suctioned", at, Coded("a-seen", "Secretions seen"));
        }

        yield return _rows.Row(key + "colour", "rt-sec-colour", "Secretion colour", at, Goes(0.01) ? Coded("a-streaks", "Blood streaks") : Coded("a-clear", "Clear"));
        yield return _rows.Row(key + "amount", "rt-sec-amount", "Secretion amount", at, Coded("a-mod", "Moderate"));
        yield return _rows.Row(key + "thick", "rt-sec-thick", "Secretion consistency", at, Coded("a-thin", "Thin"));
        yield return _rows.Row(key + "system", "rt-sxn-system", "Suction system", at, Coded("a-inline", "In-line"));
        yield return _rows.Row(key + "depth", "rt-insert-depth", "Catheter inserted to", at, Quantity(Goes(0.01) ? "34" : "30", "cm", "cm"));
        yield return _rows.Row(key + "use", "rt-sxn-use", "Suction used for", at, Coded("a-airway", "Airway"));
        yield return _rows.Row(key + "off", "rt-vent-off", "Ventilator disconnected", at, "\"valueBoolean\":false");
        yield return _rows.Row(key + "o-before", "rt-spo2", "SpO2", at.AddSeconds(-30), Quantity("96", "%", "%"));
        yield return _rows.Row(key + "o-after", "rt-spo2", "SpO2", at.AddSeconds(60), Quantity(Goes(0.02) ? "88" : "95", "%", "%"));
        yield return _rows.Row(key + "h-after", "rt-hr", "Heart rate", at.AddSeconds(60), Quantity(Goes(0.002) ? "46" : "92", "/min", "/min"));
    }

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
