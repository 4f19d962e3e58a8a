using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether suction is open or closed: as charted or ordered, else a closed catheter that the Procedure used.</summary>
internal static class SuctionSystem
{
    /// <summary>What counts where both are charted with one pass: it is what a check is about.</summary>
    public static readonly int Open = Answers.Of("open");

    private static readonly int Closed = Answers.Of("closed");

    /// <returns>True for closed, false for open, null where nobody says.</returns>
    public static bool? IsClosed(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var fact = subject.Kind == SubjectKind.Pass ? HeldInSession.Of(Concepts.SuctionSystem, subject.Index, timeline, care, Open) : Own.Coded(Concepts.SuctionSystem, Own.Facts(subject, care), timeline, Open);
        if (fact >= 0)
        {
            result.Uses(fact);
            return timeline.Facts[fact].Value.Symbol == Closed;
        }

        return subject.Kind == SubjectKind.Pass && UsesClosedCatheter(timeline, care, care.Passes[subject.Index].Anchor) ? true : null;
    }

    /// <summary>Whether a Procedure used a closed catheter.</summary>
    public static bool UsesClosedCatheter(in Timeline timeline, Care care, Entity act)
    {
        if (act.Kind != EntityKind.Act)
        {
            return false;
        }

        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.Uses && link.From == act && care.KindOf(link.To) == Answers.ClosedSuctionCatheter)
            {
                return true;
            }
        }

        return false;
    }
}
