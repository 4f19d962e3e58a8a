using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>What became of one write.</summary>
internal sealed record WriteResult(
    SendState State, ServerVersion? Server, bool ChangedByPerson = false, bool ClosedByPerson = false, DiagnosticCode? Code = null, TimeSpan? RetryAfter = null)
{
    public static WriteResult Confirmed(string id, string version) => new(SendState.Confirmed, new ServerVersion(id, version));

    /// <summary>To be tried again.</summary>
    public static WriteResult Unknown(ServerVersion? server, DiagnosticCode code, TimeSpan? retryAfter = null) => new(SendState.Unknown, server, Code: code, RetryAfter: retryAfter);

    /// <summary>For a person to look at.</summary>
    public static WriteResult Parked(ServerVersion? server, DiagnosticCode code) => new(SendState.Parked, server, Code: code);

    /// <summary>What an answer that is not done comes to.</summary>
    /// <param name="refused">Code for a refusal; null for the answer's own.</param>
    public static WriteResult From(FhirAnswer answer, ServerVersion? server, DiagnosticCode? refused = null) => answer.Reply switch
    {
        FhirReply.TryLater or FhirReply.Unclear or FhirReply.NotSignedIn or FhirReply.Conflict => Unknown(server, answer.Code!, answer.RetryAfter),

        // Where a whole type is not found, the server does not offer it.
        FhirReply.NotFound or FhirReply.Gone => Parked(server, refused ?? Codes.NotOffered),
        _ => Parked(server, refused ?? answer.Code!),
    };

    public SinkAnswer ToAnswer() => new(State, Server, ChangedByPerson, ClosedByPerson, Code?.Id, RetryAfter);
}
