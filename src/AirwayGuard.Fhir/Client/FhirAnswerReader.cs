using System.Net;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.Reading;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Client;

/// <summary>Turns an HTTP response into an answer: leniently, since servers and what stands before them answer in many ways.</summary>
internal sealed class FhirAnswerReader(FhirGate gate, TimeProvider clock)
{
    /// <param name="needsBody">The call is useless without a FHIR resource in the body.</param>
    public FhirAnswer Read(HttpResponseMessage response, ReadOnlyMemory<byte> body, bool needsBody)
    {
        var status = (int)response.StatusCode;
        body = JsonCheck.WithoutMark(body);
        var parsed = body.IsEmpty || LooksLikeMarkup(body.Span) ? null : PocoParse.Read(body, out _);

        // Whoever uses an answer may trust its elements.
        var resource = parsed is not null && FormCheck.Holds(body.Span) ? parsed : null;
        var outcome = (resource as OperationOutcome)?.Issue.FirstOrDefault()?.CodeElement?.JsonValue as string;
        if (status is < 200 or > 299)
        {
            var (reply, code) = Failure(response.StatusCode);
            return new FhirAnswer(reply, status, null, outcome, null, null, RetryAfter.Of(response, clock), code);
        }

        var content = resource is OperationOutcome ? null : resource;
        if (content is null && (needsBody || LooksLikeMarkup(body.Span)))
        {
            var code = LooksLikeJson(body.Span) && parsed is null ? Codes.AnswerTruncated : Codes.NotFhir;
            return new FhirAnswer(FhirReply.Unclear, status, null, outcome, null, null, RetryAfter.Of(response, clock), code);
        }

        var place = PlaceOf(response);
        var id = content?.Id is { Length: > 0 } inBody ? inBody : place?.Id;
        return new FhirAnswer(FhirReply.Done, status, content, outcome, id, VersionOf(response, content, place), null, null);
    }

    private static (FhirReply Reply, DiagnosticCode Code) Failure(HttpStatusCode status) => (int)status switch
    {
        401 => (FhirReply.NotSignedIn, Codes.NotSignedIn),
        403 => (FhirReply.Refused, Codes.NotAllowed),
        404 => (FhirReply.NotFound, Codes.NotFound),
        410 => (FhirReply.Gone, Codes.NotFound),
        409 or 412 => (FhirReply.Conflict, Codes.VersionConflict),
        408 or 425 or 429 or 503 => (FhirReply.TryLater, Codes.ServerBusy),
        // Said by what stands before the server.
        502 or 504 => (FhirReply.TryLater, Codes.NoAnswer),
        405 or 501 => (FhirReply.Refused, Codes.NotOffered),
        >= 300 and < 400 => (FhirReply.Refused, Codes.Redirected),
        >= 500 => (FhirReply.TryLater, Codes.ServerFailed),
        < 200 => (FhirReply.Unclear, Codes.NotFhir),
        _ => (FhirReply.Refused, Codes.NotAccepted),
    };

    private static bool LooksLikeJson(ReadOnlySpan<byte> body) => First(body) == (byte)'{';

    private static bool LooksLikeMarkup(ReadOnlySpan<byte> body) => First(body) == (byte)'<';

    private static byte First(ReadOnlySpan<byte> body)
    {
        var trimmed = body.TrimStart(" \t\r\n"u8);
        return trimmed.IsEmpty ? (byte)0 : trimmed[0];
    }

    private static string? VersionOf(HttpResponseMessage response, Resource? content, ResourceAddress? place)
    {
        // Read as text: the typed header refuses the bare numbers that some servers send.
        var tag = response.Headers.NonValidated.TryGetValues("ETag", out var values) ? values.FirstOrDefault() : null;

        // The body goes first: a proxy that compresses may give the tag an ending of its own.
        return content?.Meta?.VersionId is { Length: > 0 } inBody ? inBody : EntityTag.Version(tag) ?? place?.Version;
    }

    private ResourceAddress? PlaceOf(HttpResponseMessage response)
    {
        var location = response.Headers.NonValidated.TryGetValues("Location", out var values) ? values.FirstOrDefault() : null;
        location ??= response.Content.Headers.NonValidated.TryGetValues("Content-Location", out var content) ? content.FirstOrDefault() : null;
        return gate.TryResource(location, out var place, out _) ? place : null;
    }
}
