using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Finds a coded answer that was charted with a session: with one of its passes, or while it lasted.</summary>
internal static class SessionAnswers
{
    /// <param name="session">Index of the session; −1 where only the time counts.</param>
    /// <param name="from">UTC ticks.</param>
    /// <param name="to">UTC ticks, inclusive.</param>
    /// <returns>Index of the first fact; −1 for none.</returns>
    public static int First(Concept concept, int answer, int session, long from, long to, in Timeline timeline, Care care)
    {
        var facts = timeline.Of(concept);
        for (var i = 0; i < facts.Length; i++)
        {
            var index = timeline.FirstOf(concept) + i;
            if (facts[i].About == timeline.Patient && facts[i].Value.Kind == ValueKind.Code && facts[i].Value.Symbol == answer
                && !care.MayBeOfOtherSuction(index) && ((facts[i].EffectiveFrom >= from && facts[i].EffectiveFrom <= to) || IsOf(session, index, care)))
            {
                return index;
            }
        }

        return -1;
    }

    /// <summary>As <see cref="First"/> for the session of a pass.</summary>
    public static int First(Concept concept, int answer, in PassSpan pass, in Timeline timeline, Care care)
    {
        ref readonly var session = ref care.Sessions[pass.Session];
        return First(concept, answer, pass.Session, session.From, Math.Max(session.From, session.To), timeline, care);
    }

    private static bool IsOf(int session, int fact, Care care) =>
        session >= 0 && care.PassOf(fact) is >= 0 and var pass && care.Passes[pass].Session == session;
}
