namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    // What is not let in, or stopped the service.
    public static readonly DiagnosticCode OwnFault = new("AG1005", "Stopped by a fault of its own", "Report it with this line: it holds no charted content. The next start goes on where this one stopped.");
    public static readonly DiagnosticCode HostNotOurs = new("AG1006", "The Host header names another server", "Call it by a loopback address, or list the name in AirwayGuard:AllowedHosts.");
    public static readonly DiagnosticCode OriginForeign = new("AG1007", "Requests from pages of another origin are not taken", "Send it from the server that notifies, not from a page in a browser.");
    public static readonly DiagnosticCode NoticeTypeRefused = new("AG1008", "Content type not taken", "Send application/fhir+json or application/json, or no body.");
    public static readonly DiagnosticCode NoticeTooLarge = new("AG1009", "Body too large", "A notice may have 1 MB; it is a hint and needs no body.");
    public static readonly DiagnosticCode OptionUnknown = new("AG1011", "No such option or setting", "deploy/README.md lists the settings, airwayguard --help the verbs.");
}
