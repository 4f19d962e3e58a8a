using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Finds what stands on the server under a key. Exactly one of its answers: it stands, it is nowhere, or trouble.</summary>
internal sealed class ResourceFinder(FhirHttp http, ContentDigest digest)
{
    /// <summary>What was found: both null where nothing carries the key.</summary>
    internal readonly record struct Found(Standing? Standing, WriteResult? Trouble)
    {
        /// <summary>Further copies under the same key that stand; null for none.</summary>
        public IReadOnlyList<Resource>? Others { get; init; }

        public bool IsNowhere => Standing is null && Trouble is null;
    }

    /// <summary>Reads it where it was last; where it is not there, or something else is, looks by identifier.</summary>
    public async Task<Found> AtAsync(WriteTarget target, string id, ServerVersion? last, CancellationToken stop)
    {
        var answer = await http.ReadAsync(target.Type, id, stop);
        return answer.Reply switch
        {
            FhirReply.Done when Carries(answer.Resource, target) => new Found(new Standing(answer.Resource!, id, answer.Version), null),
            FhirReply.Gone => default,

            // A 404 may come from something in between, so the server is asked once more by identifier.
            FhirReply.Done or FhirReply.NotFound => await ByKeyAsync(target, id, last, stop),
            _ => new Found(null, WriteResult.From(answer, last)),
        };
    }

    /// <param name="notAt">An id that was looked at already.</param>
    public async Task<Found> ByKeyAsync(WriteTarget target, string? notAt, ServerVersion? last, CancellationToken stop)
    {
        var matches = await http.FindAsync(target.Type, target.System, target.Value, stop);
        if (!matches.Answer.IsDone)
        {
            return new Found(null, WriteResult.From(matches.Answer, last));
        }

        var copies = Copies.Of(matches.Found.Where(resource => resource.Id != notAt), last, digest);
        if (copies.Kept is not { Id: { } id })
        {
            return default;
        }

        // A search may show an older version than a read.
        var answer = await http.ReadAsync(target.Type, id, stop);
        return answer.Reply switch
        {
            FhirReply.Done when Carries(answer.Resource, target) => new Found(new Standing(answer.Resource!, id, answer.Version), null) { Others = copies.Others },
            FhirReply.Gone or FhirReply.NotFound => default,
            FhirReply.Done => new Found(null, WriteResult.Unknown(last, Codes.NotFhir)),
            _ => new Found(null, WriteResult.From(answer, last)),
        };
    }

    private static bool Carries(Resource? resource, WriteTarget target) =>
        resource is IIdentifiable<List<Identifier>> identified && resource.TypeName == target.Type
        && identified.Identifier.Any(one => one.System == target.System && string.Equals(one.Value, target.Value, StringComparison.OrdinalIgnoreCase));
}
