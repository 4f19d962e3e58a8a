namespace AirwayGuard.Core.Judging;

/// <summary>The three answers, and not yet.</summary>
public enum Outcome : byte
{
    /// <summary>The rule says nothing about this subject.</summary>
    NotApplicable,
    Pass,
    Breach,
    CannotTell,

    /// <summary>Rests on something missing that may still be charted; due at a later time.</summary>
    NotYet,
}
