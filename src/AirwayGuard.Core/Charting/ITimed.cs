namespace AirwayGuard.Core.Charting;

/// <summary>What begins at a time, so that a list of it in that order can be searched.</summary>
public interface ITimed
{
    /// <summary>UTC ticks.</summary>
    long Begins { get; }
}
