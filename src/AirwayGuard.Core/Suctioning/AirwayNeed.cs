namespace AirwayGuard.Core.Suctioning;

/// <summary>An airway that was suctioned, or that a catheter was ordered for: from then on its lengths and diameter matter.</summary>
/// <param name="Airway">Index of the airway.</param>
/// <param name="At">The pass or the order, UTC ticks: the first at which the diameter in use is not known, else the first of all.</param>
/// <param name="Until">When that pass ended, UTC ticks; of an order, and without a known end, when it began.</param>
public readonly record struct AirwayNeed(int Airway, long At, long Until, short OffsetMinutes);
