namespace AirwayGuard.Core.Ports;

/// <summary>One arrival of any kind, as received.</summary>
/// <param name="Source">The server or file it came from, without secrets.</param>
/// <param name="Type">Resource type, or null for what is no resource.</param>
/// <param name="Version">meta.versionId; with type and id the key on which arrivals dedupe.</param>
/// <param name="KnownAt">When it became known: the server's stamp where it has one, else receipt.</param>
/// <param name="Body">UTF-8 JSON as received.</param>
public sealed record Arrival(
    ArrivalKind Kind, string Source, string? Type, string? Id, string? Version, DateTimeOffset KnownAt, KnownBy KnownBy, ReadOnlyMemory<byte> Body)
{
    /// <summary>Says what it is, not what it holds.</summary>
    public override string ToString() => $"Arrival({Kind}, {Type})";
}
