namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    // The audit chain does not verify: 60xx.
    public static readonly DiagnosticCode AuditEdited = new("AG6001", "Audit entry edited", "Keep the file as it is and compare it with a backup; the entries before it are sound.");
    public static readonly DiagnosticCode AuditMissing = new("AG6002", "Audit entry missing or out of order", "Keep the file as it is and compare it with a backup; the entries before it are sound.");
    public static readonly DiagnosticCode AuditTruncated = new("AG6003", "Audit trail ends before an anchor", "Entries were cut off the end, or the ledger was set back; find what was kept outside.");
    public static readonly DiagnosticCode AuditReplaced = new("AG6004", "Audit trail differs from an anchor", "The trail was rewritten, or the anchor belongs to another ledger; compare both with backups.");
    public static readonly DiagnosticCode AuditUnvouched = new("AG6005", "Audit entries after the last anchor", "Give the anchors kept outside with --anchors, or verify again after the next one: they come every 5 minutes and at stop.");

    // A finding asked for cannot be told or is not the same again: 61xx.
    public static readonly DiagnosticCode FindingUnknown = new("AG6101", "No such finding", "Give the identifier of a Flag or DetectedIssue that this ledger wrote, or its first digits.");
    public static readonly DiagnosticCode FindingAmbiguous = new("AG6102", "Several findings begin so", "Give more digits of the identifier.");
    public static readonly DiagnosticCode FindingMalformed = new("AG6103", "Not an identifier of a finding", "Give a UUID, with or without urn:uuid: before it, or at least its first four digits.");
    public static readonly DiagnosticCode FindingRulesMissing = new("AG6104", "The rule set of the finding is not at hand", "Give the document that was in force then with --rules.");
    public static readonly DiagnosticCode FindingDiffers = new("AG6105", "Judging again does not give what was recorded", "Keep the ledger as it is and verify its audit trail; compare the rule set and program with those of the time.");
    public static readonly DiagnosticCode FindingPointMissing = new("AG6106", "The judgement is not on record", "The ledger does not say when this was judged, so it cannot be judged again; restore a complete ledger.");
}
