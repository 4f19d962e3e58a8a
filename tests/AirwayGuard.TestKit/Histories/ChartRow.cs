using System.Collections.Immutable;

namespace AirwayGuard.TestKit.Histories;

/// <summary>One charted row, an Observation. Times keep the offset they are charted in.</summary>
/// <param name="Stay">Id of the encounter it names, or none.</param>
/// <param name="Key">Grouping key: rows with the same one were charted together; or none.</param>
/// <param name="PartOf">Id of the Procedure it is part of, or none.</param>
/// <param name="Device">Reference of the Device or DeviceMetric that produced it, or none.</param>
/// <param name="Status">FHIR's Observation.status.</param>
/// <param name="Saved">meta.lastUpdated; of several versions of one id the latest counts.</param>
public sealed record ChartRow(
    string Id,
    string Concept,
    Charted Value,
    DateTimeOffset At,
    DateTimeOffset? End,
    string? Stay,
    string? Key,
    string? PartOf,
    string? Device,
    string Status,
    DateTimeOffset Saved,
    ImmutableArray<(string Concept, Charted Value)> Components)
{
    /// <summary>Reference of the Device or Location it is about; none for the patient.</summary>
    public string? About { get; init; }

    public string Reference => "Observation/" + Id;

    public static ChartRow Of(string id, string concept, DateTimeOffset at, Charted value) =>
        new(id, concept, value, at, null, null, null, null, null, "final", at, []);
}
