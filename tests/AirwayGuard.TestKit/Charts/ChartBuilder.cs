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
/// <c>HH:mm</c> or <c>HH:mm:ss</c> of 1 March 2026, UTC; a day may stand before (<c>2 09:00</c> is 2 March).
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
        return new DateTime(2026, 3, 1, 0, 0, 0, DateTimeKind.Utc).AddDays(day - 1).Add(TimeSpan.Parse(parts[^1], CultureInfo.InvariantCulture)).Ticks;
    }

    public static FactValue Number(decimal amount, Unit unit, Comparator comparator = Comparator.Exactly) =>
        FactValue.TryNumber(amount, unit, out var value, comparator) ? value : throw new ArgumentOutOfRangeException(nameof(amount));

    public static FactValue Answer(string code) => FactValue.Code(Answers.Of(code));

    public ChartBuilder Born(int year, int month = 0, int day = 0)
    {
        var precision = (byte)(day > 0 ? 8 : month > 0 ? 6 : 4);
        return Add("Patient/p1", Patient, reading => reading.Facts.Add(Timeless(Patient, Concepts.BirthDate, FactValue.Date(year, month, day, precision), Patient)));
    }

    /// <summary>An encounter of the patient, of a class where one is given; rows added afterwards name it.</summary>
    public ChartBuilder Encounter(string id, string from, string? to = null, string? stay = null)
    {
        var encounter = _entities.Intern(EntityKind.Encounter, "Encounter/" + id);
        _encounter = "Encounter/" + id;
        var end = to is null ? long.MaxValue : At(to);
        return Add(_encounter, encounter, reading =>
        {
            reading.Links.Add(new Link(default, LinkKind.EncounterOf, encounter, Patient, encounter, At(from), end, default, default));
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
                    device is null ? default : _entities.Intern(EntityKind.Device, "Device/" + device),
                    act is null ? default : _entities.Intern(EntityKind.Act, "Procedure/" + act),
                    row, group is null ? default : _entities.Intern(EntityKind.GroupKey, group),
                    values[i].Concept, values[i].Value.Digits < 0 ? FactMarks.Negative : FactMarks.None, 0,
                    At(at), to is null ? At(at) : At(to), default, default, values[i].Value));
            }

            if (act is not null)
            {
                reading.Links.Add(Always(LinkKind.PartOf, row, _entities.Intern(EntityKind.Act, "Procedure/" + act), row));
            }

            if (device is not null)
            {
                reading.Links.Add(Always(LinkKind.NamedWith, _entities.Intern(EntityKind.Device, "Device/" + device), Patient, row));
            }
        });
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
                reading.Links.Add(Always(LinkKind.Uses, act, _entities.Intern(EntityKind.Device, "Device/" + device), act));
            }

            if (parent is not null)
            {
                reading.Links.Add(Always(LinkKind.PartOf, act, _entities.Intern(EntityKind.Act, "Procedure/" + parent), act));
            }
        });
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

    public ChartBuilder InUse(string id, string device, string from, string? to = null)
    {
        var statement = _entities.Intern(EntityKind.Statement, "DeviceUseStatement/" + id);
        return Add("DeviceUseStatement/" + id, statement, reading => reading.Links.Add(new Link(
            default, LinkKind.UsedBy, _entities.Intern(EntityKind.Device, "Device/" + device), Patient, statement,
            At(from), to is null ? long.MaxValue : At(to), default, default)));
    }

    /// <summary>An order with its status, and what else it says.</summary>
    public ChartBuilder Order(string id, string authored, string status, params (Concept Concept, FactValue Value)[] says)
    {
        var order = _entities.Intern(EntityKind.Order, "ServiceRequest/" + id);
        return Add("ServiceRequest/" + id, order, reading =>
        {
            reading.Links.Add(Always(LinkKind.OrderFor, order, Patient, order));
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

    public DerivedFindings Judge(string rules = "strict-ranges", string? asOf = null, UnknownAge unknownAge = UnknownAge.CannotTell)
    {
        Then();
        var set = ShippedRuleSets.Load(rules).RuleSet!;
        var judge = new PatientJudge(set, _entities);
        using var lease = _chart.Load(Patient, _chart.Newest);
        var end = asOf is null ? At("28 00:00") : At(asOf);
        return judge.Judge(lease.View, new JudgeSettings(end, asOf is null, unknownAge));
    }

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
