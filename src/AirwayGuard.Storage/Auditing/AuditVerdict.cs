using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Storage.Auditing;

/// <summary>What a check of an audit trail found.</summary>
/// <param name="FirstBad">Number of the first entry that is bad or missing; null if the trail is sound.</param>
/// <param name="Sound">The last entry known to be sound; of a sound trail its head.</param>
/// <param name="Unvouched">Sound entries after the last anchor, for which nothing outside vouches.</param>
public sealed record AuditVerdict(AuditFault Fault, long? FirstBad, AuditHead Sound, long Unvouched)
{
    /// <summary>Anchors were given, and not one is of this trail: it may be another ledger's.</summary>
    public bool NoneFits { get; init; }

    public bool IsSound => Fault == AuditFault.None;

    /// <summary>The fault, told to a person; for a sound trail the entries nothing vouches for, or null if there are none.</summary>
    public Problem? Problem => Fault switch
    {
        AuditFault.Edited => new Problem(Codes.AuditEdited, Where, "The entry's members do not give its hash."),
        AuditFault.Missing => new Problem(Codes.AuditMissing, Where, "The entry that belongs here is missing, or does not follow the one before."),
        AuditFault.Truncated => new Problem(Codes.AuditTruncated, Where, "The trail ends before an anchor recorded outside."),
        AuditFault.Replaced when NoneFits => new Problem(Codes.AuditReplaced, Where, "Not one anchor fits: they are of another ledger, or the whole trail was put in place of another one."),
        AuditFault.Replaced => new Problem(Codes.AuditReplaced, Where, "The entry is not the one that was anchored."),
        _ => Unvouched == 0 ? null : new Problem(Codes.AuditUnvouched, $"audit entry {Sound.Number - Unvouched + 1}", $"Nothing outside vouches for {Unvouched} of {Sound.Number} entries."),
    };

    private string Where => $"audit entry {FirstBad}";
}
