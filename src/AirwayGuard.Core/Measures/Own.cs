using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>The subject's own rows: the members of a pass, the facts of an order or a setting.</summary>
internal static class Own
{
    /// <summary>Indexes in the timeline; none for other kinds.</summary>
    public static ReadOnlySpan<int> Facts(in Subject subject, Care care)
    {
        switch (subject.Kind)
        {
            case Judging.SubjectKind.Pass:
                return care.MembersOf(care.Passes[subject.Index]);
            case Judging.SubjectKind.Order:
                ref readonly var order = ref care.Orders[subject.Index];
                return care.FactsOf(order);
            case Judging.SubjectKind.Setting:
                ref readonly var setting = ref care.Settings[subject.Index];
                return care.FactsOf(setting);
            default:
                return [];
        }
    }

    /// <summary>The first coded answer of a concept among facts.</summary>
    /// <param name="strictest">The answer that counts beside others, whichever was read first; 0 for none.</param>
    /// <returns>Index in the timeline; −1 for none.</returns>
    public static int Coded(Concept concept, ReadOnlySpan<int> facts, in Timeline timeline, int strictest = 0)
    {
        var first = -1;
        foreach (var index in facts)
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept != concept || fact.Value.Kind != ValueKind.Code)
            {
                continue;
            }

            if (fact.Value.Symbol == strictest)
            {
                return index;
            }

            first = first < 0 ? index : first;
        }

        return first;
    }
}
