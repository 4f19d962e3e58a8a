using AirwayGuard.Core.Diagnostics;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Client;

/// <summary>The answer to one call. HTTP trouble is a value; nothing here throws.</summary>
/// <param name="Status">HTTP status; 0 where none came.</param>
/// <param name="Resource">What the body held, parsed leniently; null for none and for an OperationOutcome of a failure.</param>
/// <param name="Outcome">Code of the first issue of an OperationOutcome; its text is never kept.</param>
/// <param name="Id">Logical id of the resource: from the body, else from Location or Content-Location.</param>
/// <param name="Version">Its version: from the body, else ETag, else Location; null where the server named none.</param>
/// <param name="RetryAfter">How long the server asked to wait.</param>
/// <param name="Code">What was wrong; null for <see cref="FhirReply.Done"/>.</param>
public sealed record FhirAnswer(
    FhirReply Reply, int Status, Resource? Resource, string? Outcome, string? Id, string? Version, TimeSpan? RetryAfter, DiagnosticCode? Code)
{
    public bool IsDone => Reply == FhirReply.Done;

    /// <summary>Nobody knows whether a write was done, or trying again may help.</summary>
    public bool IsOpen => Reply is FhirReply.TryLater or FhirReply.Unclear or FhirReply.NotSignedIn;

    /// <summary>Says status and code only: bodies hold patient data.</summary>
    public override string ToString() => $"FhirAnswer({Reply}, {Status}, {Code})";
}
