using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>
/// Of several resources under one key the one that is kept. A server whose conditional create is not safe from a race makes them
/// (several do), so they are met, not excluded.
/// </summary>
/// <param name="Kept">Null where nothing carries the key.</param>
/// <param name="Others">Further ones that are not entered in error.</param>
internal sealed record Copies(Resource? Kept, IReadOnlyList<Resource> Others)
{
    /// <summary>The one confirmed before; else one that a person worked on; else the oldest. Those entered in error come last.</summary>
    public static Copies Of(IEnumerable<Resource> found, Core.Ports.ServerVersion? last, ContentDigest digest)
    {
        // One that was only met is no better than its copies: what a person worked on goes before it.
        var confirmed = last is { IsConfirmed: true } ? last.Id : null;
        var ordered = found
            .DistinctBy(resource => resource.Id, StringComparer.Ordinal)
            .OrderBy(resource => resource.Id != confirmed)
            .ThenBy(IsEnteredInError)
            .ThenBy(digest.Fits)
            .ThenBy(resource => resource.Meta?.LastUpdated ?? DateTimeOffset.MaxValue)
            .ThenBy(resource => resource.Id, StringComparer.Ordinal)
            .ToArray();
        return new Copies(ordered.FirstOrDefault(), [.. ordered.Skip(1).Where(static resource => !IsEnteredInError(resource))]);
    }

    /// <summary>It counts as not there.</summary>
    public static bool IsEnteredInError(Resource resource) => resource switch
    {
        Flag flag => flag.StatusElement?.JsonValue is "entered-in-error",
        DetectedIssue issue => issue.StatusElement?.JsonValue is "entered-in-error",
        _ => false,
    };
}
