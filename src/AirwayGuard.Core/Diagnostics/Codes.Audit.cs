namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    // The audit chain does not verify: 60xx.
    public static readonly DiagnosticCode AuditEdited = new("AG6001", "Audit entry edited", "Keep the file as it is and compare it with a backup; the entries before it are sound.");
    public static readonly DiagnosticCode AuditMissing = new("AG6002", "Audit entry missing or out of order", "Keep the file as it is and compare it with a backup; the entries before it are sound.");
    public static readonly DiagnosticCode AuditTruncated = new("AG6003", "Audit trail ends before an anchor", "Entries were cut off the end, or the ledger was set back; find what was kept outside.");
    public static readonly DiagnosticCode AuditReplaced = new("AG6004", "Audit trail differs from an anchor", "The trail was rewritten, or the anchor belongs to another ledger; compare both with backups.");
    public static readonly DiagnosticCode AuditUnvouched = new("AG6005", "Audit entries after the last anchor", "Nothing outside vouches for them yet; verify again after the next anchor.");
}
