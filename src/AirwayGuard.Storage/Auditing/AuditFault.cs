namespace AirwayGuard.Storage.Auditing;

/// <summary>What is wrong with an audit trail at its first bad entry.</summary>
public enum AuditFault : byte
{
    None,

    /// <summary>The entry does not have the hash that its members give (AG6001).</summary>
    Edited,

    /// <summary>The entry that belongs here is missing, stands elsewhere, or does not follow the one before (AG6002).</summary>
    Missing,

    /// <summary>The trail ends before an anchor (AG6003).</summary>
    Truncated,

    /// <summary>The trail is sound in itself but is not the one that was anchored (AG6004).</summary>
    Replaced,
}
