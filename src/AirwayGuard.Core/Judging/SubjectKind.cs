namespace AirwayGuard.Core.Judging;

/// <summary>What a rule judges (contract.md §2 and §3).</summary>
public enum SubjectKind : byte
{
    Pass, Session, Order, Setting, Outlet, Airway, Due,

    /// <summary>A catheter charted apart from any pass; judged by no rule, but it can end a finding.</summary>
    Catheter,

    /// <summary>Inspired oxygen or PEEP as charted; judged by no rule, but it can end a finding.</summary>
    Support,
}
