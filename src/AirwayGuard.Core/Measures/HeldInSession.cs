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
    /// <returns>Index of the fact; −1 where none is charted.</returns>
    public static int Of(Concept concept, int pass, in Timeline timeline, Care care)
    {
        var own = With(concept, care.Passes[pass], timeline, care);
        if (own >= 0)
        {
            return own;
        }

        ref readonly var session = ref care.Sessions[care.Passes[pass].Session];
        var passes = care.PassesBySession.Slice(session.FirstPass, session.PassCount);
        var place = passes.IndexOf(pass);
        for (var i = place - 1; i >= 0; i--)
        {
            if (With(concept, care.Passes[passes[i]], timeline, care) is >= 0 and var earlier)
            {
                return earlier;
            }
        }

        for (var i = place + 1; i < passes.Length; i++)
        {
            if (With(concept, care.Passes[passes[i]], timeline, care) is >= 0 and var later)
            {
                return later;
            }
        }

        return -1;
    }

    private static int With(Concept concept, in PassSpan pass, in Timeline timeline, Care care)
    {
        foreach (var index in care.MembersOf(pass))
        {
            if (timeline.Facts[index].Concept == concept && timeline.Facts[index].Value.Kind == ValueKind.Code)
            {
                return index;
            }
        }

        return -1;
    }
}
