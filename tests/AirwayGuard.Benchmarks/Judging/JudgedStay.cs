using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;
using AirwayGuard.Rules;

namespace AirwayGuard.Benchmarks.Judging;

/// <summary>A stay of ten days in memory, judged whole or step by step.</summary>
internal sealed class JudgedStay
{
    private readonly EntityTable _entities = new();
    private readonly RuleSet _rules = ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet!;
    private readonly Care _care = new();
    private readonly VerdictLog _verdicts;
    private readonly TimelineLease _lease;
    private readonly PatientJudge _judge;

    public JudgedStay(bool isQuiet)
    {
        var stay = new Stay(1, isQuiet);
        var reader = new StayReader(_entities);
        var chart = new MemoryChart();
        chart.Keep(reader.Read(stay.Admission()));
        for (var session = 0; session < Stay.Sessions; session++)
        {
            chart.Keep(reader.Read(stay.Session(session)));
        }

        _lease = chart.Load(_entities.Intern(EntityKind.Patient, stay.Name), chart.Newest);
        _judge = new PatientJudge(_rules, _entities);
        _verdicts = new VerdictLog(_entities);
        var derived = Whole();
        Findings = derived.Findings.Length;
        // Each step works on what the one before left.
        Assemble();
        Judge();
    }

    /// <summary>Rows of the whole stay.</summary>
    public int Rows => _lease.FactCount;

    public int Findings { get; }

    public int Checks => _rules.Rules.Length;

    private static JudgeSettings Settings => new(Stay.Begins.AddDays(11).UtcTicks, WaitsAreOver: false, UnknownAge.CannotTell);

    /// <summary>Rows to findings, as the service does it.</summary>
    public DerivedFindings Whole() => _judge.Judge(_lease.View, Settings);

    /// <summary>Rows to passes, sessions and settings.</summary>
    public void Assemble() => CareAssembler.Assemble(_lease.View, _entities, _care);

    /// <summary>These to verdicts.</summary>
    public void Judge()
    {
        _verdicts.Clear();
        var sink = _verdicts;
        Core.Judging.Judge.Run(_lease.View, _care, _rules, Settings, ref sink);
    }

    /// <summary>Verdicts to findings.</summary>
    public DerivedFindings Derive() => Derivation.Derive(_lease.View, _care, _rules, _entities, _verdicts.InOrder(), Settings);
}
