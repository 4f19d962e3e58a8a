using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Checking;

/// <summary>A resource to check, with where it stands in what was given (<c>file:line</c>).</summary>
public sealed record CheckInput(Arrival Arrival, string Where);
