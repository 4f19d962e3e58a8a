namespace AirwayGuard.Core.Quantities;

/// <summary>FHIR's Quantity.comparator: what the number says of the true value (R4, value set quantity-comparator).</summary>
public enum Comparator : byte
{
    Exactly, Below, AtMost, AtLeast, Above,
}
