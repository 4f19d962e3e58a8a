namespace AirwayGuard.Host.DemoWard.Charting;

/// <summary>An inner cannula in use.</summary>
/// <param name="Millimetres">Its inner diameter, mm.</param>
/// <param name="Since">Minute of the 48 h from which it is in place.</param>
internal sealed record InnerCannula(decimal Millimetres, int Since);
