using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>A question as an EHR sends it. Nothing in it is believed about anybody else than the patient in context, and nothing of it is kept as charting.</summary>
/// <param name="Instance">The call's <c>hookInstance</c>.</param>
/// <param name="PatientId">Id of the Patient in context, without its type.</param>
/// <param name="Drafts">Resources of <c>draftOrders</c>, in order; empty for patient-view.</param>
/// <param name="Selections">What was just chosen, as <c>Type/id</c>; empty where all drafts are meant.</param>
/// <param name="FhirServer">As sent, or null.</param>
/// <param name="Prefetch">By key; a key that was not sent is absent.</param>
public sealed record HookRequest(
    Hook Hook,
    string Instance,
    string PatientId,
    string? EncounterId,
    ImmutableArray<HookResource> Drafts,
    ImmutableArray<string> Selections,
    string? FhirServer,
    FhirAccess? Access,
    ImmutableDictionary<string, PrefetchPart> Prefetch)
{
    /// <summary>Says its hook only.</summary>
    public override string ToString() => $"HookRequest({Hook})";
}

/// <summary>One resource in a question.</summary>
/// <param name="Id">Null where it has none.</param>
/// <param name="Body">UTF-8 JSON exactly as sent.</param>
/// <param name="Where">Its place in the request, e.g. <c>context.draftOrders.entry[0].resource</c>.</param>
public sealed record HookResource(string Type, string? Id, ReadOnlyMemory<byte> Body, string Where)
{
    /// <summary>Says its type only.</summary>
    public override string ToString() => $"HookResource({Type})";
}

/// <summary>How a prefetch key was sent.</summary>
public enum PrefetchState : byte
{
    /// <summary>With resources, maybe none.</summary>
    Given,

    /// <summary>As null: the client looked and there is no such data.</summary>
    Nothing,

    /// <summary>As an OperationOutcome or as what cannot be used: the client could not look.</summary>
    Failed,
}

/// <param name="NextPage">Address of the next page where the Bundle is not whole; null where it is.</param>
public sealed record PrefetchPart(PrefetchState State, ImmutableArray<HookResource> Resources, string? NextPage)
{
    public static readonly PrefetchPart Nothing = new(PrefetchState.Nothing, [], null);

    public static readonly PrefetchPart Failed = new(PrefetchState.Failed, [], null);
}

/// <summary>The caller's leave to read its FHIR server.</summary>
/// <param name="Token">Never logged, never sent anywhere but to the configured server.</param>
public sealed record FhirAccess(string Token)
{
    /// <summary>Says nothing of the token.</summary>
    public override string ToString() => nameof(FhirAccess);
}

/// <summary>Why a request cannot be answered.</summary>
/// <param name="Where">Path in the request, e.g. <c>context.patientId</c>.</param>
/// <param name="Why">One sentence without anything charted.</param>
/// <param name="Status">HTTP status.</param>
public sealed record HookFault(DiagnosticCode Code, string Where, string Why, int Status);
