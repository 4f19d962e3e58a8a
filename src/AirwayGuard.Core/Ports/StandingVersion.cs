using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Ports;

/// <summary>The version of a resource that stands: the newest that was kept, or its deletion.</summary>
/// <param name="Version">The server's id of it; null where it gave none.</param>
/// <param name="KnownAt">When it became known.</param>
/// <param name="RowKnown">Since which position any version of the resource is known.</param>
public sealed record StandingVersion(Position Position, string? Version, DateTimeOffset KnownAt, bool IsDeletion, Position RowKnown);
