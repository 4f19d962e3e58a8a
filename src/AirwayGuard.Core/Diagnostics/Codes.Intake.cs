namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    public static readonly DiagnosticCode SweepRefused = new("AG4001", "Server did not answer a sweep", "It is asked again; nothing is lost, since the cursor did not move.");
    public static readonly DiagnosticCode SweepNotBundle = new("AG4002", "Answer to a sweep is no Bundle", "Something between here and the server answers in its place, such as a sign-in page; check the address.");
    public static readonly DiagnosticCode NextLinkOutside = new("AG4003", "Next page lies outside the configured server", "List the address as an alias of the server if it is one; the page was not asked for.");
    public static readonly DiagnosticCode SweepTimeUnknown = new("AG4004", "Server does not say its time", "A Bundle's meta.lastUpdated or a Date header is needed; our own clock is never used for the cursor.");
    public static readonly DiagnosticCode SubscriptionRefused = new("AG4005", "Subscription was not accepted", "Charting still arrives by sweep, only later; look in the server's capability statement for Subscription.");
    public static readonly DiagnosticCode ArrivalUnreadable = new("AG4006", "A resource could not be read", "It is kept as it arrived and parked; mend the reading or the map, then retry.");
    public static readonly DiagnosticCode SweepNotHonoured = new("AG4007", "Server left out a condition of a sweep", "Everything is asked for instead, and sifted here; nothing is lost, but it costs the server more. Let it search by _lastUpdated and code.");
    public static readonly DiagnosticCode SweepUnverified = new("AG4008", "Server does not say which conditions it used", "Answers are held against the question as far as they can be; look in the server's settings for the self link of a search.");
    public static readonly DiagnosticCode PageCut = new("AG4009", "Page cut off and no next page named", "More may be there than was given; raise the server's page limit, or let it give next links.");
    public static readonly DiagnosticCode DeletionsNotSeen = new("AG4010", "Server does not tell what was deleted", "A row deleted there still counts here until it is corrected or charted entered-in-error; let the server offer the history of the type (history-type).");
    public static readonly DiagnosticCode SubscriptionStopped = new("AG4011", "Subscription stopped", "The server set it to error or off; it is asked for anew, and charting arrives by sweep meanwhile. Look whether the server reaches our address.");
    public static readonly DiagnosticCode SubscriptionNotActivated = new("AG4012", "Subscription was not activated", "The server took it and leaves it requested; charting arrives by sweep. Some servers want it sent as active: see SubscriptionStatus.");
    public static readonly DiagnosticCode NoticesRefused = new("AG4013", "More notices than are taken", "The sweep looks all the same, since one notice says as much as many; look at what sends them.");
    public static readonly DiagnosticCode JudgingFailed = new("AG4014", "A patient's file could not be judged", "Others are judged all the same; what is charted next is tried once. Report it, and retry it after an update.");
    public static readonly DiagnosticCode ChartedAhead = new("AG4016", "A row is dated later than now", "It is kept and counts from its time on, not before; look at the clock of what charts it, or correct the row.");
    public static readonly DiagnosticCode ComponentsNotSeen = new("AG4015", "Rows with their code in a component alone are not seen", "Let the server offer the search parameter combo-code for Observation; until then a row is found by its own code only.");
    public static readonly DiagnosticCode ServerSilent = new("AG4017", "The FHIR server does not answer what it is asked", "Nothing is lost: what is charted meanwhile is read once it does, and findings wait to be sent. Where it refuses (as with HTTP 401, 403 or 404), look at its address, at the sign-in and at the rights this service has there; else at the server and the network. Restarting this service changes nothing.");
    public static readonly DiagnosticCode Behind = new("AG4018", "The service is behind", "What is not read or judged yet is not among what stands. It catches up by itself; if that lasts, look at how fast the server answers.");
    public static readonly DiagnosticCode PagesWithoutEnd = new("AG4019", "Pages without end", "What they brought is kept, and the question is asked again from where it began; until it comes to an end nothing is known of what lies beyond. Look at the next links that the server gives.");
}
