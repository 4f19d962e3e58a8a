namespace AirwayGuard.Core.Diagnostics;

/// <summary>AG81xx questions of an order entry (CDS Hooks), AG82xx who may ask them.</summary>
public static partial class Codes
{
    public static readonly DiagnosticCode HookUnreadable = new("AG8101", "The request is no JSON object", "Send the JSON of CDS Hooks, in UTF-8, each member once, at most 64 levels deep.");
    public static readonly DiagnosticCode HookServiceUnknown = new("AG8102", "No such service", "Ask GET /cds-services for the ids there are.");
    public static readonly DiagnosticCode HookMismatch = new("AG8103", "The hook is missing or is not this service's", "Send the hook that the discovery lists for this service.");
    public static readonly DiagnosticCode HookFieldUnusable = new("AG8104", "A required member is missing or of the wrong kind", "Send it as the specification's table of the request or of the hook's context has it.");
    public static readonly DiagnosticCode HookDraftsUnusable = new("AG8105", "The draft orders cannot be read", "Send draftOrders as a Bundle whose entries hold R4 resources, each with an id of its own.");
    public static readonly DiagnosticCode HookTooManyDrafts = new("AG8106", "Too many draft orders in one request", "Send the orders that are being signed, at most 500.");
    public static readonly DiagnosticCode HookOtherPatient = new("AG8107", "Something in the request is of another patient", "Send orders and prefetch of the patient in context only; nothing was judged.");
    public static readonly DiagnosticCode HookServerForeign = new("AG8108", "The request is about another FHIR server", "This service answers about the server it is configured with; identifiers of another mean other patients.");
    public static readonly DiagnosticCode HookDataMissing = new("AG8109", "Data that the judgement needs cannot be had", "Send the prefetch that the discovery asks for, or fhirServer with fhirAuthorization that may read it.");
    public static readonly DiagnosticCode HookTooLarge = new("AG8110", "The request is too large", "Send at most 2 MB.");
    public static readonly DiagnosticCode HookTypeRefused = new("AG8111", "The content type is not served here", "Send application/json.");
    public static readonly DiagnosticCode HookTooMany = new("AG8112", "Too many requests", "Wait as Retry-After says, or raise AirwayGuard:CdsHooks:MostASecond.");
    public static readonly DiagnosticCode FeedbackUnusable = new("AG8113", "The feedback cannot be read", "Send feedback as the specification's table has it; what could be read of it was kept.");
    public static readonly DiagnosticCode FeedbackCardUnknown = new("AG8114", "Feedback on a card that this service never gave", "Send it to the service that gave the card, with the card's uuid; what was said of other cards was kept.");
    public static readonly DiagnosticCode HooksNotSetUp = new("AG8115", "CDS Hooks is not set up here", "Name the clients that may ask, in AirwayGuard:CdsHooks:Clients.");
    public static readonly DiagnosticCode HookUnanswered = new("AG8116", "The question could not be answered", "The service's log tells why; nothing was judged, and order entry goes on without it.");
    public static readonly DiagnosticCode HooksOpen = new("AG8117", "CDS Hooks asks nobody who they are", "This is the demo on loopback; name clients in AirwayGuard:CdsHooks:Clients for anything else.");
    public static readonly DiagnosticCode HookUnfinished = new("AG8118", "The request did not come to its end", "Send the whole body, as many bytes as Content-Length says, without pauses of seconds.");

    public static readonly DiagnosticCode TokenMissing = new("AG8201", "No bearer token", "Send Authorization: Bearer with a JWT signed for this call.");
    public static readonly DiagnosticCode TokenUnreadable = new("AG8202", "The token is no JWT that can be read", "Send a signed JWT in compact form with the header and claims of CDS Hooks.");
    public static readonly DiagnosticCode TokenAlgorithm = new("AG8203", "The token's algorithm is not accepted", "Sign with ES384 or RS384.");
    public static readonly DiagnosticCode TokenIssuer = new("AG8204", "The token's issuer is not known here", "Name it in AirwayGuard:CdsHooks:Clients exactly as the token has it.");
    public static readonly DiagnosticCode TokenKeySet = new("AG8205", "The token names another key set than its issuer's", "Send the jku that is configured for the issuer, exactly, or none.");
    public static readonly DiagnosticCode TokenKeyUnknown = new("AG8206", "The token's key is not in its issuer's key set", "Publish the key under its kid before signing with it; a key that is past its time counts as gone.");
    public static readonly DiagnosticCode TokenSignature = new("AG8207", "The token's signature does not hold", "Sign header and claims as sent, with the key of the kid.");
    public static readonly DiagnosticCode TokenAudience = new("AG8208", "The token is for another address", "Set aud to the address that is called, exactly as AirwayGuard:CdsHooks:Address and the path make it.");
    public static readonly DiagnosticCode TokenTime = new("AG8209", "The token is expired, too early or lasts too long", "Issue one for each call with iat now and exp a few minutes later, an hour at most, and check the clock.");
    public static readonly DiagnosticCode TokenUsed = new("AG8210", "The token was used before", "Issue one for each call, each with a jti of its own.");
    public static readonly DiagnosticCode KeySetUnread = new("AG8211", "The issuer's key set could not be read", "Check that its address or file gives a JWKS of at most 64 KB, and that it can be read from here; an address is asked again after a minute.");
}
