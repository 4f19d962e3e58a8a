using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;

namespace AirwayGuard.Worker.Surveying;

/// <summary>What the rule set's checks of the supply, and of how long ago it was read, say of one outlet.</summary>
internal sealed class OutletJudge(RuleSet rules, ISurveyChart chart)
{
    private const string NeverRead = "full-line reading";

    private readonly PatientJudge _judge = new(rules, chart);
    private readonly Rule? _supply = rules.Rules.FirstOrDefault(rule => rule.Criteria[0].Measure == WallSupply.Measure);
    private readonly Rule? _survey = rules.Rules.FirstOrDefault(rule => rule.Criteria[0].Measure == WallSupplySurveys.Measure);

    /// <param name="timeline">Of the outlet, without what lies ahead.</param>
    /// <param name="reading">Its last full-line row; null for none.</param>
    public (SurveyVerdict Supply, SurveyVerdict Survey) Judge(in Timeline timeline, Fact? reading, long at)
    {
        // A survey waits for nothing: what is missing now is told now.
        var derived = _judge.Judge(timeline, new JudgeSettings(at, true, UnknownAge.CannotTell));
        return (Of(_supply, derived, reading), Of(_survey, derived, reading));
    }

    private static SurveyVerdict Of(Rule? rule, DerivedFindings derived, Fact? reading)
    {
        // One limit holds whatever the age: an outlet has none.
        if (rule?.Criteria[0].Limits.For(AgeBand.Adult) is not { } limit)
        {
            return new SurveyVerdict(rule?.Id ?? "", SurveyAnswer.NotJudged, null, "", "");
        }

        if (reading is not { } last)
        {
            return CannotTell(rule, limit, NeverRead);
        }

        if (derived.Findings.LastOrDefault(finding => finding.Rule == rule && finding.State == FindingState.Open && (finding.Stands || finding.Latest.At >= last.EffectiveFrom)) is { } found)
        {
            return new SurveyVerdict(rule.Id, SurveyAnswer.Breach, found.Latest.Limit, Wording.Say(rule, found.Latest), "");
        }

        return derived.CannotTell.FirstOrDefault(one => one.Rule == rule && one.Latest >= last.EffectiveFrom) is { } open
            ? CannotTell(rule, limit, string.Join(", ", open.Missing.Select(MissingWords.Of)))
            : new SurveyVerdict(rule.Id, SurveyAnswer.Pass, limit, "", "");
    }

    private static SurveyVerdict CannotTell(Rule rule, Limit limit, string missing) => new(rule.Id, SurveyAnswer.CannotTell, limit, "", missing);
}
