namespace AirwayGuard.Core.Diagnostics;

public static partial class Codes
{
    // What the demo's FHIR server answers. The resource sent: 70xx.
    public static readonly DiagnosticCode DemoNotJson = new("AG7001", "Body is not JSON", "Send one JSON object in UTF-8: a resource, or a Bundle to the base address.");
    public static readonly DiagnosticCode DemoTooLarge = new("AG7002", "Body or entry too large", "Send at most 2 MB, and a Bundle of at most 64 MB with entries of at most 5 MB.");
    public static readonly DiagnosticCode DemoWrongType = new("AG7003", "Not the resource type asked for", "Name a type of R4 in resourceType, the one that the address names.");
    public static readonly DiagnosticCode DemoWrongId = new("AG7004", "Not the id asked for", "Send the id that the address or the match has: 1 to 64 letters, digits, hyphens and dots.");
    public static readonly DiagnosticCode DemoElementMissing = new("AG7005", "Mandatory element missing", "Add the element.");
    public static readonly DiagnosticCode DemoElementUnknown = new("AG7006", "Element not known", "Compare its name and place with the R4 definition of the type, or leave it out.");
    public static readonly DiagnosticCode DemoElementEmpty = new("AG7007", "Element without content", "Give it a value, or leave it out.");
    public static readonly DiagnosticCode DemoElementCount = new("AG7008", "Element too often or too seldom", "Send it as often as the R4 definition of the type says.");
    public static readonly DiagnosticCode DemoElementShape = new("AG7009", "Element of another shape", "Send it as an object, a list or a plain value, as the R4 definition of the type has it.");
    public static readonly DiagnosticCode DemoCodeUnknown = new("AG7010", "Code not in its value set", "Send a code of the value set that R4 binds the element to.");
    public static readonly DiagnosticCode DemoTimeUnreadable = new("AG7011", "Date or time could not be read", "Write a day as 2026-03-01 and a time as 2026-03-01T09:00:00+01:00, always with its offset; none is assumed.");
    public static readonly DiagnosticCode DemoValueUnreadable = new("AG7012", "Value could not be read", "Write it as R4 writes its element's type: a number without quotes, a code without spaces.");
    public static readonly DiagnosticCode DemoRuleBroken = new("AG7013", "Resource breaks a rule of R4", "Compare it with the R4 definition of its type.");
    public static readonly DiagnosticCode DemoBundleUnusable = new("AG7014", "Bundle cannot be carried out", "Post a transaction or a batch to the base address; each entry needs request.method, request.url and, to write, its resource.");
    public static readonly DiagnosticCode DemoReferenceUnresolved = new("AG7015", "Reference leads nowhere", "Refer to the fullUrl of an entry of the same Bundle, or to what is on the server.");
    public static readonly DiagnosticCode DemoSubscriptionUnservable = new("AG7016", "Subscription cannot be served", "Send a rest-hook to an address of this machine (127.0.0.1) with payload application/fhir+json and criteria that are a search.");

    // Conditions of a request: 71xx.
    public static readonly DiagnosticCode DemoConditionUnreadable = new("AG7101", "Condition of the request could not be read", "Send the ETag as the server gave it, such as W/\"3\", or an asterisk.");
    public static readonly DiagnosticCode DemoConditionNotMet = new("AG7102", "Resource does not stand as the request asks", "Read the resource again and send the change with the ETag of its current version.");
    public static readonly DiagnosticCode DemoCriteriaNotUnique = new("AG7103", "Criteria do not select one resource", "Give criteria that one resource meets, such as its identifier.");

    // Addresses, methods, formats and who is let in: 72xx.
    public static readonly DiagnosticCode DemoNotThere = new("AG7201", "Nothing at this address", "Check type, id and version; /fhir/metadata lists what is served.");
    public static readonly DiagnosticCode DemoDeleted = new("AG7202", "Resource was deleted", "Its earlier versions are under its history (_history).");
    public static readonly DiagnosticCode DemoMethodNotServed = new("AG7203", "Method not served here", "Use one of the methods that the Allow header names.");
    public static readonly DiagnosticCode DemoContentTypeRefused = new("AG7204", "Content type not taken by the demo server", "Send application/fhir+json or application/json in UTF-8, uncompressed; a search by POST as application/x-www-form-urlencoded.");
    public static readonly DiagnosticCode DemoFormatNotServed = new("AG7205", "Format not served", "Ask for application/fhir+json, in the Accept header or as _format=json.");
    public static readonly DiagnosticCode DemoHostForeign = new("AG7206", "The Host header names another server than the demo's", "Call it by localhost, 127.0.0.1 or [::1].");
    public static readonly DiagnosticCode DemoOriginForeign = new("AG7207", "The demo server takes nothing from pages of another origin", "Send it from a program, not from a page in a browser.");

    // Searches and histories: 73xx.
    public static readonly DiagnosticCode DemoParameterUnknown = new("AG7301", "Search parameter not known", "/fhir/metadata lists the parameters of each type.");
    public static readonly DiagnosticCode DemoParameterUnreadable = new("AG7302", "Value of a search parameter could not be read", "Write a date as ge2026-03-01, a code as it is or as system and code with a bar between, a number as 120 or gt120.");
    public static readonly DiagnosticCode DemoSearchTooCostly = new("AG7303", "Search asks for too much at once", "Split it into several searches.");
    public static readonly DiagnosticCode DemoPagesGone = new("AG7304", "Pages of a search are gone", "Search again from its first page.");

    public static readonly DiagnosticCode DemoStoreFailed = new("AG7901", "The demo server's database failed", "Look at the disk of the data folder, then send it again.");
}
