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
                return care.OrderFacts.Slice(order.FirstFact, order.FactCount);
            case Judging.SubjectKind.Setting:
                ref readonly var setting = ref care.Settings[subject.Index];
                return care.SettingFacts.Slice(setting.FirstFact, setting.FactCount);
            default:
                return [];
        }
    }
}
