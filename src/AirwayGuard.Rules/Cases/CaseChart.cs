using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Rules.Cases;

/// <summary>The facts of one case, as if they had been read from its chart; judged by as many rule sets as are asked.</summary>
internal sealed class CaseChart
{
    private const string PatientName = "Patient/case";

    private readonly EntityTable _entities = new();
    private readonly MemoryChart _chart = new();
    private readonly List<ReadArrival> _read = [];
    private readonly Case _case;
    private readonly Entity _patient;
    private readonly Entity _encounter;
    private readonly List<Entity> _roots;

    public CaseChart(Case one)
    {
        _case = one;
        _patient = _entities.Intern(EntityKind.Patient, PatientName);
        _encounter = one.Stay.Length == 0 ? default : _entities.Intern(EntityKind.Encounter, "Encounter/stay");
        AddPatient();
        foreach (var thing in one.Things)
        {
            Add(thing);
        }

        for (var i = 0; i < one.Orders.Length; i++)
        {
            Add(one.Orders[i]);
        }

        for (var i = 0; i < one.Rows.Length; i++)
        {
            Add(one.Rows[i], i + 1);
        }

        _chart.Keep(_read);
        _roots = [_patient, .. _chart.Orphans()];
    }

    /// <summary>Everything the case makes by a rule set.</summary>
    public DerivedFindings Judge(RuleSet rules)
    {
        var judge = new PatientJudge(rules, _entities);
        var settings = new JudgeSettings(_case.AsOf ?? Latest(), _case.AsOf is null, _case.UnknownAge);
        var all = DerivedFindings.None;
        foreach (var root in _roots)
        {
            using var lease = _chart.Load(root, _chart.Newest);
            var made = judge.Judge(lease.View, settings);
            all = all with { Findings = all.Findings.AddRange(made.Findings), CannotTell = all.CannotTell.AddRange(made.CannotTell) };
        }

        return all;
    }

    private long Latest() =>
        _case.Rows.Select(static row => row.Until).Concat(_case.Orders.Select(static order => order.Authored)).DefaultIfEmpty(0).Max();

    private void AddPatient()
    {
        var reading = new Core.Ports.Reading { Self = _patient };
        if (_case.Born is { } born)
        {
            reading.Facts.Add(Timeless(_patient, Concepts.BirthDate, born, _patient));
        }

        Keep(PatientName, reading);
        if (_encounter.IsNone)
        {
            return;
        }

        var stay = new Core.Ports.Reading { Self = _encounter };
        stay.Links.Add(Always(LinkKind.EncounterOf, _encounter, _patient, _encounter));
        stay.Facts.Add(Timed(_encounter, Concepts.EncounterPeriod, FactValue.Absent, _encounter, long.MinValue, long.MaxValue));
        stay.Facts.Add(Timed(_encounter, Concepts.EncounterClass, FactValue.Code(Answers.Of(_case.Stay)), _encounter, long.MinValue, long.MaxValue));
        Keep("Encounter/stay", stay);
    }

    private void Add(CaseThing thing)
    {
        var device = DeviceOf(thing.Id);
        var reading = new Core.Ports.Reading { Self = device };
        reading.Facts.Add(Timeless(device, Concepts.DeviceKind, FactValue.Code(thing.Kind), device));
        foreach (var (concept, value) in thing.Properties)
        {
            reading.Facts.Add(Timeless(device, concept, value, device));
        }

        if (thing.StandsAt.Length > 0)
        {
            reading.Links.Add(Always(LinkKind.StandsAt, device, _entities.Intern(EntityKind.Place, "Location/" + thing.StandsAt), device));
        }

        Keep("Device/" + thing.Id, reading);
        if (thing.UsedFrom is null && thing.UsedUntil is null)
        {
            return;
        }

        var statement = _entities.Intern(EntityKind.Statement, "DeviceUseStatement/" + thing.Id);
        var use = new Core.Ports.Reading { Self = statement };
        use.Links.Add(Always(LinkKind.UsedBy, device, _patient, statement) with { FromTime = thing.UsedFrom ?? long.MinValue, ToTime = thing.UsedUntil ?? long.MaxValue });
        Keep("DeviceUseStatement/" + thing.Id, use);
    }

    private void Add(CaseRow charted, int number)
    {
        var name = FormattableString.Invariant($"Observation/row-{number:000}");
        var row = _entities.Intern(EntityKind.Row, name);
        var act = charted.IsProcedure ? AddProcedure(charted, FormattableString.Invariant($"Procedure/pass-{number:000}")) : default;
        var (about, device) = (charted.Of.Length == 0 ? _patient : DeviceOf(charted.Of), charted.Device.Length == 0 ? default : DeviceOf(charted.Device));
        var reading = new Core.Ports.Reading { Self = row };
        for (var i = 0; i < charted.Values.Length; i++)
        {
            var (concept, value) = charted.Values[i];
            if (!act.IsNone && concept == Concepts.SuctionPass)
            {
                continue;
            }

            reading.Facts.Add(new Fact(
                new FactId(default, (ushort)i), about, charted.Of.Length == 0 ? _encounter : default, device, act, row, default, concept,
                value.Digits < 0 ? FactMarks.Negative : FactMarks.None, 0, charted.From, charted.Until, default, default, value));
        }

        if (!device.IsNone && charted.Of.Length == 0)
        {
            reading.Links.Add(Always(LinkKind.NamedWith, device, _patient, row) with { FromTime = charted.From, ToTime = charted.Until + 1 });
        }

        Keep(name, reading);
    }

    private Entity AddProcedure(CaseRow charted, string name)
    {
        var act = _entities.Intern(EntityKind.Act, name);
        var reading = new Core.Ports.Reading { Self = act };
        reading.Facts.Add(new Fact(
            new FactId(default, 0), _patient, _encounter, default, act, act, default, Concepts.SuctionPass, FactMarks.None, 0, charted.From, charted.Until,
            default, default, FactValue.Absent));
        var end = charted.Until == charted.From ? charted.Until + 1 : charted.Until;
        reading.Links.Add(Always(LinkKind.DoneTo, act, _patient, act) with { FromTime = charted.From, ToTime = end });
        foreach (var used in charted.Uses)
        {
            reading.Links.Add(Always(LinkKind.Uses, act, DeviceOf(used), act) with { FromTime = charted.From, ToTime = end });
        }

        if (charted.Under.Length > 0)
        {
            reading.Links.Add(Always(LinkKind.BasedOn, act, _entities.Intern(EntityKind.Order, "ServiceRequest/" + charted.Under), act));
        }

        Keep(name, reading);
        return act;
    }

    private void Add(CaseOrder order)
    {
        var name = "ServiceRequest/" + order.Id;
        var self = _entities.Intern(EntityKind.Order, name);
        var reading = new Core.Ports.Reading { Self = self };
        reading.Links.Add(Always(LinkKind.OrderFor, self, _patient, self));
        if (order.Replaces.Length > 0)
        {
            reading.Links.Add(Always(LinkKind.Replaces, self, _entities.Intern(EntityKind.Order, "ServiceRequest/" + order.Replaces), self));
        }

        reading.Facts.Add(Timed(self, Concepts.OrderStatus, FactValue.Code(order.Status), self, order.Authored, order.Authored));
        reading.Facts.Add(Timed(self, Concepts.OrderIntent, FactValue.Code(Answers.Of("order")), self, order.Authored, order.Authored));
        foreach (var (concept, value) in order.Says)
        {
            reading.Facts.Add(Timed(self, concept, value, self, order.Authored, order.Authored));
        }

        Keep(name, reading);
    }

    private void Keep(string name, Core.Ports.Reading reading)
    {
        var slash = name.IndexOf('/', StringComparison.Ordinal);
        _read.Add(new ReadArrival(
            new Arrival(ArrivalKind.Resource, "case", name[..slash], name[(slash + 1)..], null, DateTimeOffset.UnixEpoch, KnownBy.Import, default), reading));
    }

    private Entity DeviceOf(string id) => _entities.Intern(EntityKind.Device, "Device/" + id);

    private static Link Always(LinkKind kind, Entity from, Entity to, Entity row) =>
        new(default, kind, from, to, row, long.MinValue, long.MaxValue, default, default);

    private static Fact Timeless(Entity about, Concept concept, FactValue value, Entity row) =>
        new(default, about, default, default, default, row, default, concept, FactMarks.Timeless, 0, long.MinValue, long.MaxValue, default, default, value);

    private static Fact Timed(Entity about, Concept concept, FactValue value, Entity row, long from, long until) =>
        new(default, about, default, default, default, row, default, concept, FactMarks.None, 0, from, until, default, default, value);
}
