using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// Judges one patient from a timeline to findings. Live intake, a single run over files, questions and replay all go through here.
/// Keeps its working memory from patient to patient; not for concurrent use.
/// </summary>
public sealed class PatientJudge(RuleSet rules, IEntityNames names)
{
    private readonly Care _care = new();
    private readonly VerdictLog _verdicts = new(names);

    /// <summary>What the rows of the patient judged last add up to.</summary>
    public Care Care => _care;

    /// <summary>Name of the due time at which a row dated ahead begins; no check of that name exists.</summary>
    public const string ChartedAhead = "charted-ahead";

    /// <summary>Judges what has begun at the time of judging; where more lies ahead, its beginning is among what falls due.</summary>
    public DerivedFindings Judge(in Timeline known, in JudgeSettings settings)
    {
        var next = long.MaxValue;
        // A single run over all the charting there is has no now that anything could lie ahead of.
        var timeline = settings.WaitsAreOver ? known : Begun.At(known, settings.AsOf, out next);
        _verdicts.Clear();
        CareAssembler.Assemble(timeline, names, _care);
        var sink = _verdicts;
        Judging.Judge.Run(timeline, _care, rules, settings, ref sink);
        _verdicts.Withhold(rules);
        var derived = Derivation.Derive(timeline, _care, rules, names, _verdicts.InOrder(), settings);
        return next == long.MaxValue ? derived : derived with { Due = derived.Due.Add(new DueVerdict(ChartedAhead, next)) };
    }
}
