using AirwayGuard.Benchmarks.Charting;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Benchmarks.Judging;

/// <summary>A stay of ten days in memory, judged whole or step by step.</summary>
internal sealed class JudgedStay
{
    private readonly EntityTable _entities = new();
    private readonly RuleSet _rules;
    private readonly Care _care = new();
    private readonly VerdictLog _verdicts;
    private readonly TimelineLease _lease;
    private readonly PatientJudge _judge;
    private readonly JudgeSettings _settings;

    public JudgedStay(ChartedStay stay, RuleSet rules)
    {
        _rules = rules;
        _settings = new JudgeSettings(stay.Ends.UtcTicks, WaitsAreOver: false, UnknownAge.CannotTell);
        var reader = new StayReader(_entities);
        var chart = new MemoryChart();
        foreach (var group in stay.Groups)
        {
            chart.Keep(reader.Read(group));
        }

        _lease = chart.Load(_entities.Intern(EntityKind.Patient, stay.Patient), chart.Newest);
        _judge = new PatientJudge(_rules, _entities);
        _verdicts = new VerdictLog(_entities);
        var derived = Whole();
        (Findings, CannotTell) = (derived.Findings.Sum(finding => finding.Occurrences.Length), derived.CannotTell.Length);
        // Each step works on what the one before left.
        Assemble();
        Judge();
    }

    /// <summary>Rows of the whole stay.</summary>
    public int Rows => _lease.FactCount;

    public int Sessions => _care.Sessions.Length;

    /// <summary>Passes, sessions, settings that break a check, counted each.</summary>
    public int Findings { get; }

    public int CannotTell { get; }

    public int Checks => _rules.Rules.Length;

    /// <summary>Rows to findings, as the service does it.</summary>
    public DerivedFindings Whole() => _judge.Judge(_lease.View, _settings);

    /// <summary>Rows to passes, sessions and settings.</summary>
    public void Assemble() => CareAssembler.Assemble(_lease.View, _entities, _care);

    /// <summary>These to verdicts.</summary>
    public void Judge()
    {
        _verdicts.Clear();
        var sink = _verdicts;
        Core.Judging.Judge.Run(_lease.View, _care, _rules, _settings, ref sink);
    }

    /// <summary>Verdicts to findings.</summary>
    public DerivedFindings Derive() => Derivation.Derive(_lease.View, _care, _rules, _entities, _verdicts.InOrder(), _settings);
}
