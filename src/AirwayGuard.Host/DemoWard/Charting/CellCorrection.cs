namespace AirwayGuard.Host.DemoWard.Charting;

/// <summary>A cell's second version.</summary>
internal sealed record CellCorrection(ChartColumn Column, string Row, RowValue Right);
