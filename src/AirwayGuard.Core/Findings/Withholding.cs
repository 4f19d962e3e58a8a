namespace AirwayGuard.Core.Findings;

/// <summary>Why a finding is recorded and not shown. What is raised is either shown or withheld for one of these reasons.</summary>
public enum Withholding : byte
{
    /// <summary>It is shown.</summary>
    None,

    /// <summary>Nothing leaves the service, or its rule is silent.</summary>
    Silent,

    /// <summary>Another check of the same subject says it already.</summary>
    SaidByAnotherCheck,

    /// <summary>It happened too long ago to be shown as new.</summary>
    Old,

    /// <summary>It was over before it was judged for the first time.</summary>
    OverBeforeJudged,

    /// <summary>It was no finding by the policy that was in force when it happened and when it was judged, and it is over.</summary>
    BeforePolicy,
}
