using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Whether all that a request holds is of the patient in context. Nothing is judged of a request in which two patients are mixed up.</summary>
public static class PatientCheck
{
    // Of what is looked up, the types that are read; of what is ordered, each.
    private static readonly HashSet<string> TypesRead = new(StringComparer.Ordinal)
    {
        "Patient", "Device", "DeviceUseStatement", "Encounter", "Condition", "Procedure", "Observation", "ServiceRequest", "DeviceRequest",
    };

    /// <summary>
    /// The first of the drafts, then of the prefetch in the order of its keys, that names another patient, or one by an address of another
    /// server; null for none.
    /// </summary>
    /// <param name="request">As <see cref="HookRequestReader"/> read it.</param>
    /// <param name="isOurs">Whether an absolute address is the configured server's.</param>
    public static HookFault? Of(HookRequest request, Func<string, bool> isOurs)
    {
        ArgumentNullException.ThrowIfNull(request);
        var looked = request.Prefetch.OrderBy(part => part.Key, StringComparer.Ordinal).SelectMany(part => part.Value.Resources).Where(row => TypesRead.Contains(row.Type));
        return Of(request.Drafts.Concat(looked), request.PatientId, isOurs);
    }

    /// <summary>The first resource that names another patient; null for none.</summary>
    /// <param name="resources">Well-formed, each member once.</param>
    /// <param name="patientId">Id without its type.</param>
    /// <param name="isOurs">Whether an absolute address is the configured server's.</param>
    public static HookFault? Of(IEnumerable<HookResource> resources, string patientId, Func<string, bool> isOurs)
    {
        ArgumentNullException.ThrowIfNull(isOurs);
        ArgumentNullException.ThrowIfNull(resources);
        ArgumentException.ThrowIfNullOrEmpty(patientId);
        foreach (var resource in resources)
        {
            if (Place(resource, patientId, isOurs) is { } place)
            {
                return new HookFault(Codes.HookOtherPatient, $"{resource.Where}.{place}", "It names another patient than the one in context.", 400);
            }
        }

        return null;
    }

    private static string? Place(HookResource resource, string patientId, Func<string, bool> isOurs)
    {
        if (resource.Type == "Patient")
        {
            return resource.Id is null || resource.Id == patientId ? null : "id";
        }

        var cursor = new JsonCursor(resource.Body);
        cursor.Read();
        string? place = null;
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            var member = cursor.Is("subject"u8) ? "subject" : cursor.Is("patient"u8) ? "patient" : null;
            cursor.Read();
            if (member is null)
            {
                cursor.SkipUnseen();
            }
            else if (IsOfAnother(ref cursor, patientId, isOurs))
            {
                place ??= $"{member}.reference";
            }
        }

        return place;
    }

    // A reference that names no Patient by its id (urn:, contained, logical) cannot be told: it is passed over.
    private static bool IsOfAnother(ref JsonCursor cursor, string patientId, Func<string, bool> isOurs)
    {
        if (!cursor.IsObject)
        {
            cursor.SkipUnseen();
            return false;
        }

        string? reference = null;
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            var isReference = cursor.Is("reference"u8);
            cursor.Read();
            reference = isReference ? cursor.TextIfAny() : reference;
            cursor.SkipUnseen();
        }

        return FhirNames.Literal(reference) is { } named && named.StartsWith("Patient/", StringComparison.Ordinal)
            && (named["Patient/".Length..] != patientId || (reference!.Contains("://", StringComparison.Ordinal) && !isOurs(reference)));
    }
}
