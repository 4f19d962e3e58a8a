using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Reads what an EHR asks (CDS Hooks 2.0, "Calling a CDS Service", and the pages of the three hooks), in one walk over its bytes.</summary>
public static class HookRequestReader
{
    /// <summary>Orders that are judged in one request, at most.</summary>
    public const int MostDrafts = 500;

    /// <summary>Keys that a prefetch may have, at most.</summary>
    public const int MostPrefetchKeys = 100;

    private const int LongestInstance = 200, LongestAddress = 2048, LongestToken = 16 * 1024;

    /// <summary>The request, or why it cannot be used. What the standard does not know is passed over; throws on nothing that is sent.</summary>
    /// <param name="utf8">The body; the resources of the request are slices of it.</param>
    /// <param name="expected">The hook of the service that is asked.</param>
    public static (HookRequest? Request, HookFault? Fault) Read(ReadOnlyMemory<byte> utf8, Hook expected)
    {
        var sent = new SentRequest(expected);
        var fault = JsonBody.Read(utf8, sent.Read) ?? Fault(sent, expected);
        return fault is null ? (Request(sent, expected), null) : (null, fault);
    }

    // Called where there is no fault: what is required is there.
    private static HookRequest Request(SentRequest sent, Hook hook) => new(
        hook, sent.Instance.Text!, FhirNames.IdOf(sent.Patient.Text, "Patient")!, FhirNames.IdOf(sent.Encounter.Text, "Encounter"),
        sent.Drafts?.Resources ?? [], Selections(sent), sent.Server.Text, sent.HasAccess ? new FhirAccess(sent.Token.Text!) : null, sent.Prefetch.ToImmutable());

    // The order is fixed, so that the first thing that is wrong is told whatever the order of the members.
    private static HookFault? Fault(SentRequest sent, Hook expected)
    {
        if (sent.Hook.Text != HookNames.Of(expected))
        {
            return new HookFault(Codes.HookMismatch, "hook", $"This service answers {HookNames.Of(expected)}.", 400);
        }

        return !IsInstance(sent.Instance.Text)
                ? Unusable("hookInstance", string.Create(CultureInfo.InvariantCulture, $"It is required: a UUID, or another text of at most {LongestInstance} characters."))
            : !sent.HasContext ? Unusable("context", "It is required: an object.")
            : FhirNames.IdOf(sent.Patient.Text, "Patient") is null ? Unusable("context.patientId", "It is required: the id of the Patient, as FHIR writes ids.")
            : sent.Encounter.IsThere && FhirNames.IdOf(sent.Encounter.Text, "Encounter") is null
                ? Unusable("context.encounterId", "Where it is sent it is the id of the Encounter, as FHIR writes ids.")
            : OrdersFault(sent, expected) ?? ServerFault(sent) ?? PrefetchFault(sent);
    }

    private static HookFault? OrdersFault(SentRequest sent, Hook expected) =>
        expected == Hook.PatientView ? null
        : sent.Drafts is null ? Unusable("context.draftOrders", "It is required: a Bundle.")
        : sent.Drafts.Fault ?? (expected == Hook.OrderSelect ? sent.SelectionsFault : null);

    private static HookFault? ServerFault(SentRequest sent) =>
        sent.Server.IsThere && !IsAddress(sent.Server.Text) ? Unusable("fhirServer", "Where it is sent it is an absolute http or https address.")
        : sent.IsAccessUnusable ? Unusable("fhirAuthorization", "Where it is sent it is an object.")
        : !sent.HasAccess ? null
        : !sent.Server.IsThere ? Unusable("fhirServer", "It is required beside fhirAuthorization.")
        : !IsToken(sent.Token.Text) ? Unusable("fhirAuthorization.access_token", "It is required: a text that may stand in an HTTP header.")
        : !string.Equals(sent.TokenType.Text, "Bearer", StringComparison.OrdinalIgnoreCase) ? Unusable("fhirAuthorization.token_type", "It is required: Bearer.")
        : null;

    private static HookFault? PrefetchFault(SentRequest sent) =>
        sent.IsPrefetchUnusable ? Unusable("prefetch", "Where it is sent it is an object.")
        : sent.HasTooManyKeys ? Unusable("prefetch", string.Create(CultureInfo.InvariantCulture, $"It has more than {MostPrefetchKeys} keys."))
        : null;

    // Clients exist that give the bare id: the drafts then tell the type.
    private static ImmutableArray<string> Selections(SentRequest sent)
    {
        var drafts = (sent.Drafts?.Resources ?? []).Where(draft => draft.Id is not null).ToLookup(draft => draft.Id!, StringComparer.Ordinal);
        return
        [
            .. sent.Selections.SelectMany(chosen => FhirNames.Literal(chosen) is { } named ? [named]
                : drafts.Contains(chosen) ? drafts[chosen].Select(draft => $"{draft.Type}/{draft.Id}")
                : new[] { chosen }).Distinct(StringComparer.Ordinal),
        ];
    }

    private static bool IsInstance(string? text) => text is { Length: <= LongestInstance } && !string.IsNullOrWhiteSpace(text) && !text.Any(char.IsControl);

    private static bool IsAddress(string? text) =>
        text is { Length: <= LongestAddress } && !text.Any(c => char.IsControl(c) || char.IsWhiteSpace(c))
        && Uri.TryCreate(text, UriKind.Absolute, out var address) && address.Scheme is "http" or "https" && address.Host.Length > 0;

    private static bool IsToken(string? text) => text is { Length: > 0 and <= LongestToken } && !text.AsSpan().ContainsAnyExceptInRange('!', '~');

    private static HookFault Unusable(string where, string why) => new(Codes.HookFieldUnusable, where, why, 400);
}
