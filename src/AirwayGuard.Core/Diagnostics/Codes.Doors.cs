namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    // What is not let in, or stopped the service.
    public static readonly DiagnosticCode OwnFault = new("AG1005", "Stopped by a fault of its own", "Report it with this line: it holds no charted content. The next start goes on where this one stopped.");
    public static readonly DiagnosticCode HostNotOurs = new("AG1006", "The Host header names another server", "Call it by a loopback address, or list the name in AirwayGuard:AllowedHosts.");
    public static readonly DiagnosticCode OriginForeign = new("AG1007", "Requests from pages of another origin are not taken", "Send it from a server, not from a page in a browser.");
    public static readonly DiagnosticCode NoticeTypeRefused = new("AG1008", "Content type not taken", "Send application/fhir+json or application/json, or no body.");
    public static readonly DiagnosticCode NoticeTooLarge = new("AG1009", "Body too large", "A notice may have 1 MB; it is a hint and needs no body.");
    public static readonly DiagnosticCode UsageWrong = new("AG1013", "Command line not understood", "airwayguard --help lists the verbs, airwayguard VERB --help the options of one.");
    public static readonly DiagnosticCode TimeUnreadable = new("AG1014", "Time of an option could not be read", "Write day, time of day and offset, such as 2026-03-01T12:00:00+01:00 or 2026-03-01T11:00:00Z; no offset is assumed.");
    public static readonly DiagnosticCode RouteUnknown = new("AG1015", "Nothing at this address", "The service answers at /, /health/live, /health/ready, /metrics, /notify and /cds-services; the demo also at /fhir.");
    public static readonly DiagnosticCode MethodRefused = new("AG1016", "Method not served here", "Use one of the methods that the Allow header names.");
    public static readonly DiagnosticCode NoticeUnsigned = new("AG1017", "Notice without the token of its channel", "Send the Authorization header that the Subscription carries in channel.header; only Subscriptions that the service placed open a channel.");
    public static readonly DiagnosticCode RequestRefused = new("AG1018", "Request not answered", "Send it again as HTTP/1.1 asks; if it lasts, look at the service's log.");
    public static readonly DiagnosticCode OptionUnknown = new("AG1011", "No such option or setting", "deploy/README.md lists the settings, airwayguard --help the verbs.");
}
