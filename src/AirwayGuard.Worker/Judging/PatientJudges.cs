using AirwayGuard.Core.Judging;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Worker.Judging;

/// <summary>Judges of one rule set, one for each way in which its checks speak and are silent at a place.</summary>
internal sealed class PatientJudges(RuleSet rules, SignedOff signedOff, IEntityNames names)
{
    private readonly Dictionary<string, (RuleSet Rules, PatientJudge Judge)> _byVoices = new(StringComparer.Ordinal);

    public (RuleSet Rules, PatientJudge Judge) At(IReadOnlyCollection<string> places)
    {
        var there = signedOff.At(rules, places);
        var voices = string.Concat(there.Rules.Select(static rule => rule.Mode == Mode.Live ? '+' : '-'));
        if (!_byVoices.TryGetValue(voices, out var known))
        {
            known = (there, new PatientJudge(there, names));
            _byVoices.Add(voices, known);
        }

        return known;
    }
}
