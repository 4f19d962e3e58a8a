using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>What became of one write.</summary>
internal sealed record WriteResult(
    SendState State, ServerVersion? Server, bool ChangedByPerson = false, bool ClosedByPerson = false, DiagnosticCode? Code = null, TimeSpan? RetryAfter = null)
{
    /// <inheritdoc cref="SinkAnswer.MayBeOutage" />
    public bool MayBeOutage { get; init; }

    public static WriteResult Confirmed(string id, string version) => new(SendState.Confirmed, new ServerVersion(id, version));

    /// <summary>To be tried again.</summary>
    public static WriteResult Unknown(ServerVersion? server, DiagnosticCode code, TimeSpan? retryAfter = null) => new(SendState.Unknown, server, Code: code, RetryAfter: retryAfter);

    /// <summary>For a person to look at.</summary>
    /// <param name="status">The HTTP status it was refused with; 0 where that is not the reason.</param>
    public static WriteResult Parked(ServerVersion? server, DiagnosticCode code, int status = 0) =>
        new(SendState.Parked, server, Code: code) { MayBeOutage = status is (>= 300 and < 400) or 403 or 404 or 407 };

    /// <summary>What an answer that is not done comes to.</summary>
    /// <param name="refused">Code for a refusal; null for the answer's own.</param>
    public static WriteResult From(FhirAnswer answer, ServerVersion? server, DiagnosticCode? refused = null) => answer.Reply switch
    {
        FhirReply.TryLater or FhirReply.Unclear or FhirReply.NotSignedIn or FhirReply.Conflict => Unknown(server, answer.Code!, answer.RetryAfter),

        // Where a whole type is not found, the server does not offer it.
        FhirReply.NotFound or FhirReply.Gone => Parked(server, refused ?? Codes.NotOffered, answer.Status),
        _ => Parked(server, refused ?? answer.Code!, answer.Status),
    };

    public SinkAnswer ToAnswer() => new(State, Server, ChangedByPerson, ClosedByPerson, Code?.Id, RetryAfter) { MayBeOutage = MayBeOutage };
}
