using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules;

namespace AirwayGuard.TestKit.Charts;

/// <summary>
/// Builds one patient's chart fact by fact and judges it, for tests of what the core makes of rows. Times are written
/// <c>HH:mm</c> or <c>HH:mm:ss</c> of 1 March 2026, UTC; a day may stand before (<c>2 09:00</c> is 2 March), an offset after
/// (<c>29 03:05+02:00</c>).
/// </summary>
public sealed class ChartBuilder
{
    private readonly EntityTable _entities = new();
    private readonly MemoryChart _chart = new();
    private readonly List<ReadArrival> _waiting = [];
    private string _encounter = "";

    public ChartBuilder() => Patient = _entities.Intern(EntityKind.Patient, "Patient/p1");

    public Entity Patient { get; private set; }

    public EntityTable Entities => _entities;

    public static long At(string time)
    {
        var parts = time.Split(' ');
        var day = parts.Length == 2 ? int.Parse(parts[0], CultureInfo.InvariantCulture) : 1;
        var wall = TimeSpan.Parse(parts[^1].Split('+')[0], CultureInfo.InvariantCulture);
        return new DateTime(2026, 3, 1, 0, 0, 0, DateTimeKind.Utc).AddDays(day - 1).Add(wall).AddMinutes(-OffsetOf(time)).Ticks;
    }

    private static short OffsetOf(string time) => time.Split('+') is [_, var offset] ? (short)TimeSpan.Parse(offset, CultureInfo.InvariantCulture).TotalMinutes : (short)0;

    public static FactValue Number(decimal amount, Unit unit, Comparator comparator = Comparator.Exactly) =>
        FactValue.TryNumber(amount, unit, out var value, comparator) ? value : throw new ArgumentOutOfRangeException(nameof(amount));

    public static FactValue Answer(string code) => FactValue.Code(Answers.Of(code));

    public ChartBuilder Born(int year, int month = 0, int day = 0)
    {
        var precision = (byte)(day > 0 ? 8 : month > 0 ? 6 : 4);
        return Add(_entities.NameOf(Patient), Patient, reading => reading.Facts.Add(Timeless(Patient, Concepts.BirthDate, FactValue.Date(year, month, day, precision), Patient)));
    }

    /// <summary>An encounter of the patient, at a bed and of a class where they are given; rows added afterwards name it.</summary>
    public ChartBuilder Encounter(string id, string from, string? to = null, string? bed = null, string? stay = null)
    {
        var encounter = _entities.Intern(EntityKind.Encounter, "Encounter/" + id);
        _encounter = "Encounter/" + id;
        var end = to is null ? long.MaxValue : At(to);
        return Add(_encounter, encounter, reading =>
        {
            reading.Links.Add(new Link(default, LinkKind.EncounterOf, encounter, Patient, encounter, At(from), end, default, default));
            if (bed is not null)
            {
                reading.Links.Add(new Link(default, LinkKind.TakesPlaceAt, encounter, _entities.Intern(EntityKind.Place, "Location/" + bed), encounter, At(from), end, default, default));
            }

            reading.Facts.Add(Plain(encounter, Concepts.EncounterPeriod, FactValue.Absent, encounter, At(from), end));
            if (stay is not null)
            {
                reading.Facts.Add(Plain(encounter, Concepts.EncounterClass, Answer(stay), encounter, At(from), end));
            }
        });
    }

    public ChartBuilder Row(string id, Concept concept, string at, FactValue value, string? to = null, string? device = null, string? about = null, string? act = null, string? group = null)
    {
        return Row(id, at, to, device, about, act, group, (concept, value));
    }

    /// <summary>One row that carries several values: its own and its components.</summary>
    public ChartBuilder Row(string id, string at, string? to, string? device, string? about, string? act, string? group, params (Concept Concept, FactValue Value)[] values)
    {
        var row = _entities.Intern(EntityKind.Row, "Observation/" + id);
        var subject = about is null ? Patient : _entities.Intern(EntityKind.Device, "Device/" + about);
        return Add("Observation/" + id, row, reading =>
        {
            for (var i = 0; i < values.Length; i++)
            {
                reading.Facts.Add(new Fact(
                    new FactId(default, (ushort)i), subject,
                    _encounter.Length == 0 ? default : _entities.Intern(EntityKind.Encounter, _encounter),
                    device is null ? default : Source(device),
                    act is null ? default : _entities.Intern(EntityKind.Act, "Procedure/" + act),
                    row, group is null ? default : _entities.Intern(EntityKind.GroupKey, group),
                    values[i].Concept, values[i].Value.Digits < 0 ? FactMarks.Negative : FactMarks.None, OffsetOf(at),
                    At(at), to is null ? At(at) : At(to), default, default, values[i].Value));
            }

            if (act is not null)
            {
                reading.Links.Add(Always(LinkKind.PartOf, row, _entities.Intern(EntityKind.Act, "Procedure/" + act), row));
            }

            if (device is not null)
            {
                reading.Links.Add(Always(LinkKind.NamedWith, Source(device), Patient, row) with { FromTime = At(at), ToTime = At(to ?? at) + 1 });
            }
        });
    }

    /// <summary>A row whose code says that the value was set and not measured.</summary>
    public ChartBuilder SetRow(string id, Concept concept, string at, FactValue value)
    {
        var row = _entities.Intern(EntityKind.Row, "Observation/" + id);
        return Add("Observation/" + id, row, reading => reading.Facts.Add(
            new Fact(default, Patient, default, default, default, row, default, concept, FactMarks.Setting, OffsetOf(at), At(at), At(at), default, default, value)));
    }

    /// <summary>A suction Procedure.</summary>
    public ChartBuilder Procedure(string id, string from, string? to = null, string[]? uses = null, string? parent = null)
    {
        var act = _entities.Intern(EntityKind.Act, "Procedure/" + id);
        return Add("Procedure/" + id, act, reading =>
        {
            reading.Facts.Add(Plain(Patient, Concepts.SuctionPass, FactValue.Absent, act, At(from), to is null ? At(from) : At(to)));
            reading.Links.Add(Always(LinkKind.DoneTo, act, Patient, act));
            foreach (var device in uses ?? [])
            {
                reading.Links.Add(Always(LinkKind.Uses, act, _entities.Intern(EntityKind.Device, "Device/" + device), act) with { FromTime = At(from), ToTime = At(to ?? from) + 1 });
            }

            if (parent is not null)
            {
                reading.Links.Add(Always(LinkKind.PartOf, act, _entities.Intern(EntityKind.Act, "Procedure/" + parent), act));
            }
        });
    }

    /// <summary>A Procedure of another suction than the airway's.</summary>
    public ChartBuilder OtherProcedure(string id, string at)
    {
        var act = _entities.Intern(EntityKind.Act, "Procedure/" + id);
        return Add("Procedure/" + id, act, reading => reading.Links.Add(Always(LinkKind.DoneTo, act, Patient, act) with { FromTime = At(at), ToTime = At(at) + 1 }));
    }

    public ChartBuilder Device(string id, string kind, params (Concept Concept, FactValue Value)[] properties)
    {
        var device = _entities.Intern(EntityKind.Device, "Device/" + id);
        return Add("Device/" + id, device, reading =>
        {
            reading.Facts.Add(Timeless(device, Concepts.DeviceKind, Answer(kind), device));
            foreach (var (concept, value) in properties)
            {
                reading.Facts.Add(Timeless(device, concept, value, device));
            }
        });
    }

    /// <summary>A regulator on the wall at a bed.</summary>
    public ChartBuilder RegulatorAt(string id, string bed)
    {
        var device = _entities.Intern(EntityKind.Device, "Device/" + id);
        return Add("Device/" + id, device, reading =>
        {
            reading.Facts.Add(Timeless(device, Concepts.DeviceKind, Answer("vacuum-regulator"), device));
            reading.Links.Add(Always(LinkKind.StandsAt, device, _entities.Intern(EntityKind.Place, "Location/" + bed), device));
        });
    }

    /// <summary>A metric of a device; its rows name it as <c>DeviceMetric/id</c>.</summary>
    public ChartBuilder Metric(string id, string device, string category, params string[] calibrated)
    {
        var metric = _entities.Intern(EntityKind.Metric, "DeviceMetric/" + id);
        return Add("DeviceMetric/" + id, metric, reading =>
        {
            reading.Links.Add(Always(LinkKind.MetricOf, metric, _entities.Intern(EntityKind.Device, "Device/" + device), metric));
            reading.Facts.Add(Timeless(metric, Concepts.MetricCategory, Answer(category), metric));
            foreach (var time in calibrated)
            {
                var day = new DateTime(At(time), DateTimeKind.Utc);
                reading.Facts.Add(Plain(metric, Concepts.CalibratedOn, FactValue.Date(day.Year, day.Month, day.Day, 8), metric, At(time), At(time)));
            }
        });
    }

    /// <summary>What is added from here on is another patient's.</summary>
    public ChartBuilder Patients(string id)
    {
        Patient = _entities.Intern(EntityKind.Patient, "Patient/" + id);
        _encounter = "";
        return this;
    }

    public ChartBuilder InUse(string id, string device, string from, string? to = null)
    {
        var statement = _entities.Intern(EntityKind.Statement, "DeviceUseStatement/" + id);
        return Add("DeviceUseStatement/" + id, statement, reading => reading.Links.Add(new Link(
            default, LinkKind.UsedBy, _entities.Intern(EntityKind.Device, "Device/" + device), Patient, statement,
            At(from), to is null ? long.MaxValue : At(to), default, default)));
    }

    /// <summary>An order with its status, and what else it says.</summary>
    public ChartBuilder Order(string id, string authored, string status, params (Concept Concept, FactValue Value)[] says) =>
        Renewal(id, null, authored, status, says);

    /// <summary>A request for equipment that is based on an order.</summary>
    public ChartBuilder Equipment(string id, string basedOn, string authored, params (Concept Concept, FactValue Value)[] says)
    {
        var order = _entities.Intern(EntityKind.Order, "DeviceRequest/" + id);
        return Add("DeviceRequest/" + id, order, reading =>
        {
            reading.Links.Add(Always(LinkKind.OrderFor, order, Patient, order));
            reading.Links.Add(Always(LinkKind.BasedOn, order, _entities.Intern(EntityKind.Order, "ServiceRequest/" + basedOn), order));
            foreach (var (concept, value) in (ReadOnlySpan<(Concept, FactValue)>)[(Concepts.OrderStatus, Answer("active")), (Concepts.OrderIntent, Answer("order")), .. says])
            {
                reading.Facts.Add(Plain(order, concept, value, order, At(authored), At(authored)));
            }
        });
    }

    /// <summary>An order that takes another's place.</summary>
    public ChartBuilder Renewal(string id, string? replaced, string authored, string status, params (Concept Concept, FactValue Value)[] says)
    {
        var order = _entities.Intern(EntityKind.Order, "ServiceRequest/" + id);
        return Add("ServiceRequest/" + id, order, reading =>
        {
            reading.Links.Add(Always(LinkKind.OrderFor, order, Patient, order));
            if (replaced is not null)
            {
                reading.Links.Add(Always(LinkKind.Replaces, order, _entities.Intern(EntityKind.Order, "ServiceRequest/" + replaced), order));
            }

            reading.Facts.Add(Plain(order, Concepts.OrderStatus, Answer(status), order, At(authored), At(authored)));
            reading.Facts.Add(Plain(order, Concepts.OrderIntent, Answer("order"), order, At(authored), At(authored)));
            foreach (var (concept, value) in says)
            {
                reading.Facts.Add(Plain(order, concept, value, order, At(authored), At(authored)));
            }
        });
    }

    /// <summary>Keeps what was added so far as known before what follows.</summary>
    public ChartBuilder Then()
    {
        _chart.Keep(_waiting);
        _waiting.Clear();
        return this;
    }

    /// <summary>Takes a row back: entered in error, or deleted.</summary>
    public ChartBuilder TakeBack(string row)
    {
        Then();
        return Add("Observation/" + row, _entities.Intern(EntityKind.Row, "Observation/" + row), static _ => { });
    }

    /// <summary>The patient's timeline as known now.</summary>
    public TimelineLease Load() => Load(Patient);

    /// <summary>The timeline of a patient, or of a device by itself, as known now.</summary>
    public TimelineLease Load(Entity root)
    {
        Then();
        return _chart.Load(root, _chart.Newest);
    }

    public DerivedFindings Judge(string rules = "strict-ranges", string? asOf = null, UnknownAge unknownAge = UnknownAge.CannotTell) =>
        Judge(ShippedRuleSets.Load(rules).RuleSet!, asOf, unknownAge);

    /// <summary>Judges by a rule set of a site.</summary>
    public DerivedFindings Judge(RuleSet rules, string? asOf = null, UnknownAge unknownAge = UnknownAge.CannotTell) =>
        Judge(rules, Patient, asOf, unknownAge);

    /// <summary>Judges a device's own timeline.</summary>
    public DerivedFindings JudgeAlone(string device, string? asOf = null) =>
        Judge(ShippedRuleSets.Load("strict-ranges").RuleSet!, _entities.Intern(EntityKind.Device, "Device/" + device), asOf);

    /// <summary>Judges with one rule changed.</summary>
    public DerivedFindings JudgeWith(string check, Func<Rule, Rule> change, string? asOf = null)
    {
        var set = ShippedRuleSets.Load("strict-ranges").RuleSet!;
        return Judge(set with { Rules = [.. set.Rules.Select(rule => rule.Id == check ? change(rule) : rule)] }, Patient, asOf);
    }

    private DerivedFindings Judge(RuleSet rules, Entity root, string? asOf, UnknownAge unknownAge = UnknownAge.CannotTell)
    {
        Then();
        var judge = new PatientJudge(rules, _entities);
        using var lease = _chart.Load(root, _chart.Newest);
        var end = asOf is null ? At("28 00:00") : At(asOf);
        return judge.Judge(lease.View, new JudgeSettings(end, asOf is null, unknownAge));
    }

    private Entity Source(string device) => device.StartsWith("DeviceMetric/", StringComparison.Ordinal)
        ? _entities.Intern(EntityKind.Metric, device)
        : _entities.Intern(EntityKind.Device, "Device/" + device);

    private ChartBuilder Add(string name, Entity self, Action<Reading> fill)
    {
        var reading = new Reading { Self = self };
        fill(reading);
        var slash = name.IndexOf('/', StringComparison.Ordinal);
        _waiting.Add(new ReadArrival(
            new Arrival(ArrivalKind.Resource, "test", name[..slash], name[(slash + 1)..], null, DateTimeOffset.UnixEpoch, KnownBy.Import, default), reading));
        return this;
    }

    private static Link Always(LinkKind kind, Entity from, Entity to, Entity row) =>
        new(default, kind, from, to, row, long.MinValue, long.MaxValue, default, default);

    private static Fact Timeless(Entity about, Concept concept, FactValue value, Entity row) =>
        new(default, about, default, default, default, row, default, concept, FactMarks.Timeless, 0, long.MinValue, long.MaxValue, default, default, value);

    private static Fact Plain(Entity about, Concept concept, FactValue value, Entity row, long from, long to) =>
        new(default, about, default, default, default, row, default, concept, FactMarks.None, 0, from, to, default, default, value);
}
