namespace AirwayGuard.TestKit.Simulation;

/// <summary>
/// What is charted on a small invented ward in one run, from a seed. Rows are chosen so that what must be found does not hang on
/// the order in which they become known: each subject has one member, and no two settings share an instant.
/// </summary>
internal sealed class ChartingPlan
{
    private static readonly ActKind[] PersonsHands =
        [ActKind.MitigateIssue, ActKind.EditFlag, ActKind.EditIssue, ActKind.DeleteFlag, ActKind.DeleteIssue];

    private readonly Random _random;
    private readonly List<ChartingAct> _acts = [];
    private readonly List<TimeSpan> _passes = [];
    private readonly DateTimeOffset _start;
    private int _rows;

    private ChartingPlan(int seed, DateTimeOffset start) => (_random, _start) = (new Random(seed), start);

    /// <summary>When the simulator's charting begins.</summary>
    public static readonly DateTimeOffset Start = new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero);

    /// <summary>By time; of one patient in the order in which they must be done.</summary>
    public IReadOnlyList<ChartingAct> Acts { get; private set; } = [];

    public IReadOnlyList<string> Patients { get; private set; } = [];

    /// <summary>When passes began, after the beginning.</summary>
    public IReadOnlyList<TimeSpan> Passes => _passes;

    public static ChartingPlan Draw(int seed) => Draw(seed, Start, "p");

    /// <param name="start">When its charting begins.</param>
    /// <param name="patients">What the ids of its patients begin with.</param>
    public static ChartingPlan Draw(int seed, DateTimeOffset start, string patients)
    {
        var plan = new ChartingPlan(seed, start);
        plan.Patients = [.. Enumerable.Range(1, 1 + plan._random.Next(2)).Select(number => $"{patients}{number}")];
        foreach (var patient in plan.Patients)
        {
            plan.Admit(patient);
        }

        plan.Acts = [.. plan._acts.OrderBy(act => act.After)];
        return plan;
    }

    private void Admit(string patient)
    {
        var rows = new ChartingRows(patient, _start);
        Add(patient, 0, "Patient", patient, rows.Person(), "admit");
        Add(patient, 0, "Encounter", "e-" + patient, rows.Stay(), "stay");
        if (_random.Next(3) > 0)
        {
            var id = NextId(patient, "a");
            Add(patient, 0, "Observation", id, rows.Answer(id, "airway-type", At(0, 20), "tracheal-tube"), "tube in");
        }

        var (minute, settings, passes, order) = (2, new List<(string Id, DateTimeOffset At)>(), new List<(string Id, DateTimeOffset At)>(), (string?)null);
        for (var left = 3 + _random.Next(6); left > 0; left--)
        {
            minute += _random.Next(8) == 0 ? 125 + _random.Next(30) : 1 + _random.Next(20);
            switch (_random.Next(15))
            {
                case < 4:
                    Vacuum(rows, minute, settings);
                    break;
                case < 6:
                    Pass(rows, minute, passes);
                    break;
                case 6 when passes.Count > 0:
                    Preoxygenation(rows, minute, passes[_random.Next(passes.Count)]);
                    break;
                case 7 when settings.Count > 0:
                    Correct(rows, minute, settings[_random.Next(settings.Count)]);
                    break;
                case 8 when settings.Count + passes.Count > 0:
                    TakeBack(rows, minute, settings, passes);
                    break;
                case 9:
                    Mode(rows, minute);
                    break;
                case 10:
                    order = Order(rows, minute, order);
                    break;
                case 11:
                    OverAnd(ActKind.CloseFlag, rows, minute, settings);
                    break;
                case 12 when settings.Count + passes.Count > 0:
                    Delete(rows.Patient, minute, settings, passes);
                    break;
                default:
                    OverAnd(PersonsHands[_random.Next(PersonsHands.Length)], rows, minute, settings);
                    break;
            }
        }

        if (_random.Next(4) == 0)
        {
            var id = NextId(patient, "a");
            Add(patient, minute + 5, "Observation", id, rows.Answer(id, "airway-type", At(minute + 5, 0), "none"), "tube out");
        }
    }

    private void Vacuum(ChartingRows rows, int minute, List<(string Id, DateTimeOffset At)> settings)
    {
        var late = _random.Next(4) == 0 ? Math.Min(minute - 1, 10 + _random.Next(200)) : 0;
        Reading(rows, minute, late, new[] { 110, 150, 151, 180, 220 }[_random.Next(5)], settings);
    }

    private void Reading(ChartingRows rows, int minute, int late, int value, List<(string Id, DateTimeOffset At)> settings)
    {
        var id = NextId(rows.Patient, "v");
        var at = At(minute - late, 30 + (_rows % 30));
        settings.Add((id, at));
        Add(rows.Patient, minute + 1, "Observation", id, rows.Vacuum(id, at, value, "final"), late > 0 ? $"vacuum {value}, {late} min late" : $"vacuum {value}");
    }

    private void Pass(ChartingRows rows, int minute, List<(string Id, DateTimeOffset At)> passes)
    {
        var (id, seconds) = (NextId(rows.Patient, "s"), new[] { 9, 15, 16, 22 }[_random.Next(4)]);
        passes.Add((id, At(minute, 0)));
        _passes.Add(TimeSpan.FromMinutes(minute));
        Add(rows.Patient, minute + 1, "Observation", id, rows.Pass(id, At(minute, 0), seconds, "final"), $"pass of {seconds} s");
    }

    private void Preoxygenation(ChartingRows rows, int minute, (string Id, DateTimeOffset At) pass)
    {
        var id = NextId(rows.Patient, "o");
        Add(rows.Patient, minute + 1, "Observation", id, rows.YesNo(id, "preoxygenation", pass.At.AddSeconds(-60 + (_rows % 20)), true), $"oxygen before {pass.Id}");
    }

    private void Correct(ChartingRows rows, int minute, (string Id, DateTimeOffset At) setting)
    {
        var value = new[] { 120, 150, 160, 200 }[_random.Next(4)];
        Add(rows.Patient, minute + 1, "Observation", setting.Id, rows.Vacuum(setting.Id, setting.At, value, "corrected"), $"{setting.Id} corrected to {value}");
    }

    private void TakeBack(ChartingRows rows, int minute, List<(string Id, DateTimeOffset At)> settings, List<(string Id, DateTimeOffset At)> passes)
    {
        var all = settings.Concat(passes).ToArray();
        var (id, at) = all[_random.Next(all.Length)];
        var json = id.Contains("-v", StringComparison.Ordinal) ? rows.Vacuum(id, at, 150, "entered-in-error") : rows.Pass(id, at, 15, "entered-in-error");
        Add(rows.Patient, minute + 1, "Observation", id, json, $"{id} entered in error");
        settings.RemoveAll(row => row.Id == id);
        passes.RemoveAll(row => row.Id == id);
    }

    private void Mode(ChartingRows rows, int minute)
    {
        var (id, mode) = (NextId(rows.Patient, "m"), _random.Next(2) == 0 ? "full-line" : "regulated");
        Add(rows.Patient, minute + 1, "Observation", id, rows.Answer(id, "regulator-mode", At(minute, 30 + (_rows % 30)), mode), "mode " + mode);
    }

    private string Order(ChartingRows rows, int minute, string? running)
    {
        var id = running ?? NextId(rows.Patient, "r");
        Add(rows.Patient, minute + 1, "ServiceRequest", id, rows.Order(id, At(0, 40), running is null ? "active" : "revoked"), running is null ? "order by the clock" : "order revoked");
        return id;
    }

    private void Delete(string patient, int minute, List<(string Id, DateTimeOffset At)> settings, List<(string Id, DateTimeOffset At)> passes)
    {
        var all = settings.Concat(passes).ToArray();
        var id = all[_random.Next(all.Length)].Id;
        _acts.Add(new ChartingAct(ActKind.DeleteRow, patient, TimeSpan.FromMinutes(minute + 1), "Observation", id, "", $"{id} deleted"));
        settings.RemoveAll(row => row.Id == id);
        passes.RemoveAll(row => row.Id == id);
    }

    private void OverAnd(ActKind kind, ChartingRows rows, int minute, List<(string Id, DateTimeOffset At)> settings)
    {
        Reading(rows, minute, 0, 200, settings);
        _acts.Add(new ChartingAct(kind, rows.Patient, TimeSpan.FromMinutes(minute + 1), "", "", "", $"a person: {kind}"));
    }

    private void Add(string patient, int minute, string type, string id, string json, string says) =>
        _acts.Add(new ChartingAct(ActKind.Chart, patient, TimeSpan.FromMinutes(minute), type, id, json, $"{type}/{id}: {says}"));

    private string NextId(string patient, string kind) => $"{patient}-{kind}{++_rows}";

    private DateTimeOffset At(int minute, int second) => _start.AddMinutes(minute).AddSeconds(second);
}
