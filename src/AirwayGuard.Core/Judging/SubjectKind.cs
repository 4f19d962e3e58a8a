namespace AirwayGuard.Core.Judging;

/// <summary>What a rule judges; docs/meanings.md says how rows become one.</summary>
public enum SubjectKind : byte
{
    Pass, Session, Order, Setting, Outlet, Airway, Due,

    /// <summary>A catheter charted apart from any pass; judged by no rule, but it can end a finding.</summary>
    Catheter,

    /// <summary>An airway that was suctioned, from its first pass on.</summary>
    SuctionedAirway,

    /// <summary>A charted cuff pressure.</summary>
    Cuff,

    /// <summary>Inspired oxygen or PEEP as charted; judged by no rule, but it can end a finding.</summary>
    Support,
}
