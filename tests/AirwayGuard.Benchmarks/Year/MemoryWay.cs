using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;
using AirwayGuard.Rules;

namespace AirwayGuard.Benchmarks.Year;

/// <summary>
/// Through the service's reader and judge, with the charts of the patients in the unit in memory; a stay that ended is let go.
/// </summary>
internal sealed class MemoryWay : IYearWay
{
    private readonly Dictionary<int, (EntityTable Entities, StayReader Reader, MemoryChart Chart)> _beds = [];
    private readonly Names _names = new();
    private readonly PatientJudge _judge;

    public MemoryWay() => _judge = new PatientJudge(ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet!, _names);

    public long BytesOnDisk => 0;

    public Task KeepAsync(BedDay day, IReadOnlyList<Arrival> rows)
    {
        if (day.IsFirst)
        {
            var table = new EntityTable();
            _beds[day.Bed] = (table, new StayReader(table), new MemoryChart());
        }

        _beds[day.Bed].Chart.Keep(_beds[day.Bed].Reader.Read(rows));
        return Task.CompletedTask;
    }

    public Task<int> JudgeAsync(IReadOnlyList<BedDay> beds) => Task.FromResult(beds.Sum(Judge));

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private int Judge(BedDay day)
    {
        var (entities, _, chart) = _beds[day.Bed];
        _names.Of = entities;
        using var lease = chart.Load(entities.Intern(EntityKind.Patient, day.Stay.Name), chart.Newest);
        var derived = _judge.Judge(lease.View, new JudgeSettings(day.Ends.UtcTicks, WaitsAreOver: false, UnknownAge.CannotTell));
        if (!day.IsLast)
        {
            return 0;
        }

        _beds.Remove(day.Bed);
        return derived.Findings.Sum(finding => finding.Occurrences.Length);
    }

    /// <summary>One judge for all: the names are those of the patient being judged.</summary>
    private sealed class Names : IEntityNames
    {
        public EntityTable Of { get; set; } = new();

        public string NameOf(Entity entity) => Of.NameOf(entity);

        public string IdentityOf(Entity entity) => Of.IdentityOf(entity);
    }
}
