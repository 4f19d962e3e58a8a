namespace AirwayGuard.Core.Judging;

/// <summary>What a rule judges (contract.md §2 and §3).</summary>
public enum SubjectKind : byte
{
    Pass, Session, Order, Setting, Outlet, Airway, Due,
}
