namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    // The anchors of the audit chain on the FHIR server.
    public static readonly DiagnosticCode AnchorNotWritten = new("AG6006", "Audit anchor not written to the server", "Allow AuditEvent on the server; until then the log line is the only anchor. It is tried again.");
    public static readonly DiagnosticCode AnchorsUnread = new("AG6007", "Audit anchors could not be read from the server", "Check the address and the right to search AuditEvent, or give a file of log lines.");
    public static readonly DiagnosticCode AnchorsMissing = new("AG6008", "No audit anchors there", "Check the path; give a file of the service's log lines, or the base address of the FHIR server that holds the anchors.");
    public static readonly DiagnosticCode AnchorsOfAnother = new("AG6009", "The anchors are of another ledger", "They lie on another server than this ledger's and say nothing of it; give the anchors of its own server, or its log lines.");
}
