namespace AirwayGuard.TestKit.Simulation;

/// <summary>What a person left of a resource of ours.</summary>
/// <param name="Id">Where it is on the server.</param>
/// <param name="Version">As which the person left it.</param>
internal sealed record PersonsMark(ActKind Kind, string Type, string Id, int Version);
