using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// A coded technique of a pass: charted with it, else with another pass of its session, for which it holds too; then the nearest
/// earlier pass counts before a later one.
/// </summary>
internal static class HeldInSession
{
    /// <param name="strictest">The answer that counts where one pass has several.</param>
    /// <returns>Index of the fact; −1 where none is charted.</returns>
    public static int Of(Concept concept, int pass, in Timeline timeline, Care care, int strictest)
    {
        var own = Own.Coded(concept, care.MembersOf(care.Passes[pass]), timeline, strictest);
        if (own >= 0)
        {
            return own;
        }

        ref readonly var session = ref care.Sessions[care.Passes[pass].Session];
        var passes = care.PassesOf(session);
        var place = passes.IndexOf(pass);
        for (var i = place - 1; i >= 0; i--)
        {
            if (Own.Coded(concept, care.MembersOf(care.Passes[passes[i]]), timeline, strictest) is >= 0 and var earlier)
            {
                return earlier;
            }
        }

        for (var i = place + 1; i < passes.Length; i++)
        {
            if (Own.Coded(concept, care.MembersOf(care.Passes[passes[i]]), timeline, strictest) is >= 0 and var later)
            {
                return later;
            }
        }

        return -1;
    }
}
