namespace AirwayGuard.Core.Charting;

/// <summary>One fact of one arrival.</summary>
/// <param name="Arrival">Where its resource version stands in the ledger: from there on it is known.</param>
/// <param name="Ordinal">Which value of the resource: 0 its own, from 1 its components or properties in their order.</param>
public readonly record struct FactId(Position Arrival, ushort Ordinal);
