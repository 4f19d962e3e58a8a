namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    // What the way to the server answered: 51xx.
    public static readonly DiagnosticCode AddressOutside = new("AG5101", "Address outside the configured server", "List the address as an alias of the server if it is one; nothing was sent there.");
    public static readonly DiagnosticCode Redirected = new("AG5102", "Server redirects", "Configure the address that it redirects to; redirects are not followed.");
    public static readonly DiagnosticCode NotSignedIn = new("AG5103", "Server wants a sign-in", "Check the access token and its scopes; it is tried again.");
    public static readonly DiagnosticCode NotAllowed = new("AG5104", "Server forbids it", "Ask the server's owner for the right to read and write this resource type, then retry.");
    public static readonly DiagnosticCode NotAccepted = new("AG5105", "Server does not accept the content", "Compare the resource with the server's profiles, then retry.");
    public static readonly DiagnosticCode NotOffered = new("AG5106", "Server does not offer this", "Look in the server's capability statement for the resource type and interaction, then retry.");
    public static readonly DiagnosticCode ServerBusy = new("AG5107", "Server is busy", "Nothing to do: it is tried again when the server asks for it.");
    public static readonly DiagnosticCode ServerFailed = new("AG5108", "Server failed", "It is tried again; if it lasts, ask the server's owner.");
    public static readonly DiagnosticCode NoAnswer = new("AG5109", "No answer from the server", "It is tried again; check the connection if it lasts.");
    public static readonly DiagnosticCode NotFhir = new("AG5110", "Answer is not FHIR", "Something between here and the server answers in its place, such as a sign-in page; check the address.");
    public static readonly DiagnosticCode AnswerTruncated = new("AG5111", "Answer is cut short or too large", "It is tried again; check the connection and the size limit if it lasts.");
    public static readonly DiagnosticCode CircuitOpen = new("AG5112", "Server is left alone for a while", "Nothing to do: after many failures calls pause, then start again.");
    public static readonly DiagnosticCode NotFound = new("AG5113", "Not on the server", "Check the id; it may have been deleted.");
    public static readonly DiagnosticCode VersionConflict = new("AG5114", "Changed while it was being written", "It is tried again on the newer version.");

    // What write-back decided: 52xx.
    public static readonly DiagnosticCode DuplicatesOnServer = new("AG5201", "Several resources carry one identifier", "Delete all but the oldest on the server, then retry; the server does not let the others be marked as entered in error.");
    public static readonly DiagnosticCode VersionUnknown = new("AG5202", "Server gives no versions", "Without versions a person's change could be overwritten; switch versioning on for Flag and DetectedIssue.");
    public static readonly DiagnosticCode MessageUnreadable = new("AG5203", "Outgoing message could not be read", "Rebuild the ledger's outbox; the message was written by another release.");
    public static readonly DiagnosticCode SubjectNotAllowed = new("AG5204", "A Flag cannot stand on this", "A Flag stands on a Patient or a Location.");
    public static readonly DiagnosticCode ProvenanceNotAccepted = new("AG5205", "Provenance not accepted", "Allow Provenance on the server or set WriteProvenance to false, then retry; the finding itself was written.");
    public static readonly DiagnosticCode AuthorNotAccepted = new("AG5206", "Author Device not accepted", "Allow Device on the server, then retry; nothing was written in its name.");
    public static readonly DiagnosticCode IdUnknown = new("AG5207", "Server did not say where the resource is", "It is tried again by its identifier.");
    public static readonly DiagnosticCode KeyOfAnotherPatient = new("AG5209", "The server has this finding on another patient", "The ledger that wrote it there is lost or was put back; nothing was changed. Take back or delete the old one on the server, then retry.");
    public static readonly DiagnosticCode ClaimRanOut = new("AG5208", "Sending took longer than its claim", "It is tried again; if it lasts, the server is slow: raise AirwayGuard:WriteBack:LeaseSeconds.");
}
