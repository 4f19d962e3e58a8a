using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Terminology;

/// <summary>What a charted row means.</summary>
/// <param name="DefaultUnit">The unit of a value charted without one; <see cref="Unit.None"/> if the map gives none.</param>
/// <param name="PassNumber">Which pass of its column it speaks of; 0 if the map does not say.</param>
/// <param name="IsSetting">A set value, not a measured one.</param>
/// <param name="IsInexact">Mapped with equivalence inexact.</param>
public readonly record struct RowMapping(Concept Concept, Unit DefaultUnit, byte PassNumber, bool IsSetting, bool IsInexact);
