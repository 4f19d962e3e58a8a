using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Worker.Surveying;

/// <summary>What the wall outlets of a hospital were last read at, unit by unit. Holds nothing of a patient.</summary>
/// <param name="AsOf">The time surveyed at; null where nothing carried a time.</param>
/// <param name="Units">By name; those whose unit is not known last.</param>
public sealed record SurveyReport(RuleSet Rules, DateTimeOffset? AsOf, ImmutableArray<SurveyedUnit> Units)
{
    public IEnumerable<SurveyedOutlet> Outlets => Units.SelectMany(unit => unit.Outlets);

    /// <summary>An outlet is low, or was not read for longer than the policy allows.</summary>
    public bool Found => Outlets.Any(outlet => outlet.Supply.Answer == SurveyAnswer.Breach || outlet.Survey.Answer == SurveyAnswer.Breach);
}

/// <param name="Unit"><c>Location/id</c>; empty where it is not known.</param>
/// <param name="Name">Empty where it has none.</param>
public sealed record SurveyedUnit(string Unit, string Name, ImmutableArray<SurveyedOutlet> Outlets);

/// <param name="Outlet"><c>Location/id</c> or <c>Device/id</c>.</param>
/// <param name="Place"><c>Location/id</c> of where it is; empty where nobody says.</param>
/// <param name="PlaceName">Empty where it has none.</param>
/// <param name="Reading">The last full-line reading; null where it was never read.</param>
/// <param name="Supply">What the check of the supply says.</param>
/// <param name="Survey">What the check of how long ago it was read says.</param>
public sealed record SurveyedOutlet(
    string Outlet, string Place, string PlaceName, Fact? Reading, TimeSpan? Age, ImmutableArray<SurveyedRegulator> Regulators, SurveyVerdict Supply, SurveyVerdict Survey);

/// <param name="Named">The reading names it; else it stands at the outlet's place.</param>
/// <param name="Set">Its set value of the 12 h before; null where none is charted.</param>
/// <param name="Mode">Its mode of the 12 h before; null where none is charted.</param>
public sealed record SurveyedRegulator(string Regulator, bool Named, Fact? Set, Fact? Mode);

/// <summary>What one of the two checks says of an outlet.</summary>
public enum SurveyAnswer : byte
{
    /// <summary>The rule set has no such check, or no limit for it.</summary>
    NotJudged,
    Pass,
    Breach,
    CannotTell,
}

/// <param name="Check">Its id; empty where the rule set has none.</param>
/// <param name="Limit">Null where none holds.</param>
/// <param name="Say">Of a breach: what was found, in a sentence.</param>
/// <param name="Missing">Where it cannot tell: what is missing.</param>
public sealed record SurveyVerdict(string Check, SurveyAnswer Answer, Limit? Limit, string Say, string Missing);
