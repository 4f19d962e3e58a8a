using System.Globalization;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>What a question holds, in the form in which charting is read. None of it is ever kept.</summary>
public static class QuestionArrivals
{
    /// <summary>A draft as it will be once signed. One without an id gets one of ours, by its place.</summary>
    /// <param name="server">The server's base address, as intake names it: references under it are its own.</param>
    /// <param name="number">Its place among the drafts, from 1.</param>
    public static Arrival OfDraft(HookResource draft, string server, string patientId, int number, DateTimeOffset now)
    {
        var id = draft.Id ?? string.Create(CultureInfo.InvariantCulture, $"draft-without-id-{number}");
        return new Arrival(
            ArrivalKind.Resource, server, draft.Type, id, null, now, KnownBy.Received, SignedDraft.Of(draft.Type, draft.Body, patientId, now));
    }

    /// <summary>Prefetched data, with the version and the time it carries; known now where it carries none.</summary>
    public static Arrival OfPrefetch(HookResource resource, string server, DateTimeOffset now)
    {
        var peek = ResourcePeek.Of(resource.Body.Span);
        return new Arrival(
            ArrivalKind.Resource, server, resource.Type, resource.Id, peek.Version, peek.LastUpdated is { } ticks ? new DateTimeOffset(ticks, TimeSpan.Zero) : now,
            peek.LastUpdated is null ? KnownBy.Received : KnownBy.ServersStamp, resource.Body);
    }
}
