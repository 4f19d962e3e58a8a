namespace AirwayGuard.Core.SignOffs;

/// <summary>What a named person did to a rule set.</summary>
public enum SignOffAct
{
    /// <summary>Put it in force, and let what the act names speak.</summary>
    Promote,

    /// <summary>Silenced what the act names; it is judged and recorded as before.</summary>
    Withdraw,

    /// <summary>Put it in force again in place of the one that came after it, speaking where it spoke.</summary>
    Restore,
}
