namespace AirwayGuard.Core.Judging;

/// <summary>A comparison names the breach, and says whether the limit itself breaches.</summary>
public enum Comparison : byte
{
    Above, AtOrAbove, Below, AtOrBelow, Outside, Is, IsNot, Missing,
}
