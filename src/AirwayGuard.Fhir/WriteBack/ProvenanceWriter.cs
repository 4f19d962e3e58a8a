using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Sees to it that each version we wrote has one Provenance of ours, and no second one.</summary>
internal sealed class ProvenanceWriter(FhirHttp http, FhirSinkOptions options, TimeProvider clock)
{
    // A resource has as many Provenances as versions; a page holds 50 or more on every server known.
    private const int MostPages = 20;

    /// <returns>Null where the version has its Provenance; else what stopped it.</returns>
    public async Task<WriteResult?> EnsureAsync(
        WriteTarget target, ServerVersion written, WriteActivity activity, IEnumerable<string> sources, ResourceReference author, CancellationToken stop)
    {
        if (!options.WriteProvenance)
        {
            return null;
        }

        var place = new ResourceAddress(target.Type, written.Id, written.Version);
        var page = await http.SearchAsync("Provenance", [("target", $"{target.Type}/{written.Id}")], stop);
        for (var pages = 1; ; pages++)
        {
            if (page.Resource is not Bundle bundle)
            {
                return WriteResult.From(page, written, Codes.ProvenanceNotAccepted);
            }

            if (bundle.Entry.Any(entry => entry.Resource is Provenance provenance && Speaks(provenance, place) && IsOurs(provenance, author)))
            {
                return null;
            }

            if (bundle.NextLink?.OriginalString is not { Length: > 0 } next || pages == MostPages)
            {
                break;
            }

            page = await http.PageAsync(next, stop);
        }

        if (clock.GetUtcNow() >= target.Until)
        {
            return WriteResult.Unknown(written, Codes.ClaimRanOut);
        }

        var provenance = ProvenanceBuilder.Build(
            place.ToString(), activity, sources, target.Basis, target.RunMode, author, options.Organization, clock.GetUtcNow());
        var answer = await http.CreateAsync(provenance, stop);
        return answer.IsDone ? null : WriteResult.From(answer, written, Codes.ProvenanceNotAccepted);
    }

    private bool Speaks(Provenance provenance, ResourceAddress place) =>
        provenance.Target.Any(target => http.Gate.TryResource(target.Reference, out var named, out _) && named == place)
        || (provenance.Meta?.Tag ?? []).Any(tag => tag.System == WrittenSystems.WrittenVersion && tag.Code == place.ToString());

    private bool IsOurs(Provenance provenance, ResourceReference author) =>
        provenance.Agent.Any(agent => http.Gate.TryResource(agent.Who?.Reference, out var who, out _) && $"{who.Type}/{who.Id}" == author.Reference);
}
