namespace AirwayGuard.TestKit.Simulation;

/// <summary>A notice of the server on its way to us.</summary>
internal sealed record Notice(string Channel, string? Authorization);
