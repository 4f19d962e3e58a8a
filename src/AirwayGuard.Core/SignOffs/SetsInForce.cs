using System.Collections.Immutable;

namespace AirwayGuard.Core.SignOffs;

/// <summary>The rule sets put in force one after another; restoring goes one back.</summary>
public static class SetsInForce
{
    /// <summary>Hashes of the sets that came after one another and stand, the one in force last; empty where none was ever promoted.</summary>
    public static ImmutableArray<string> Of(IEnumerable<SignOff> acts)
    {
        var sets = new List<string>();
        foreach (var act in acts)
        {
            if (act.Act == SignOffAct.Promote && (sets.Count == 0 || sets[^1] != act.Sha256))
            {
                sets.Add(act.Sha256);
            }
            else if (act.Act == SignOffAct.Restore)
            {
                // The act names the set it went back to, whatever else this version of the program would have gone back to.
                var at = sets.LastIndexOf(act.Sha256);
                sets = at < 0 ? [.. sets, act.Sha256] : sets[..(at + 1)];
            }
        }

        return [.. sets];
    }
}
