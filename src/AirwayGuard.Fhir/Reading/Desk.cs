namespace AirwayGuard.Fhir.Reading;

/// <summary>What one reading works with, kept for the next.</summary>
internal sealed record Desk(ObservationRow Row, Scribe Scribe);
