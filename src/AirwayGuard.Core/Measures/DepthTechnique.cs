using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Shallow or deep suction, as charted with the pass or its session, or as ordered. Of both charted together deep counts.</summary>
public static class DepthTechnique
{
    private static readonly int Deep = Answers.Of("deep");

    public static readonly Measure Measure = new(
        "depth-technique", Dimension.Code, Unit.None, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.DepthTechnique],
        TimeSpan.FromHours(12), TimeSpan.FromHours(12), ["shallow", "deep"], MayBeMissing: false,
        "shallow or deep suction",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var facts = Own.Facts(subject, care);
        var found = Own.Coded(Concepts.DepthTechnique, facts, timeline, Deep);
        var unread = Unread(facts, timeline);
        if (found < 0 && unread < 0 && subject.Kind == SubjectKind.Pass)
        {
            found = HeldInSession.Of(Concepts.DepthTechnique, subject.Index, timeline, care, Deep);
            unread = found < 0 ? UnreadInSession(subject.Index, timeline, care) : -1;
        }

        if (unread >= 0 && (found < 0 || timeline.Facts[found].Value.Symbol != Deep))
        {
            result.Uses(unread);
            result.Charted = unread;
            result.Missing = Missing.DepthTechnique;
        }
        else if (found >= 0)
        {
            result.Uses(found);
            result.Charted = found;
            result.Set(Answers.Code(timeline.Facts[found].Value.Symbol));
        }
    }

    private static int UnreadInSession(int pass, in Timeline timeline, Care care)
    {
        var unread = -1;
        foreach (var one in care.PassesOf(care.Sessions[care.Passes[pass].Session]))
        {
            unread = unread < 0 ? Unread(care.MembersOf(care.Passes[one]), timeline) : unread;
        }

        return unread;
    }

    private static int Unread(ReadOnlySpan<int> facts, in Timeline timeline)
    {
        foreach (var index in facts)
        {
            if (timeline.Facts[index].Concept == Concepts.DepthTechnique && timeline.Facts[index].Value.Kind == ValueKind.Unreadable)
            {
                return index;
            }
        }

        return -1;
    }
}
