namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>What a person does to what we wrote.</summary>
public enum PersonsAct : byte
{
    FlagInactive, FlagEdited, FlagDeleted, IssueMitigated, IssueEdited, IssueDeleted,
}
