using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>For who tells of an airway: whether the diameter charted for it still held.</summary>
public static class UnreadDiameter
{
    /// <summary>Whether the newest row about the tube's inner diameter up to a time cannot be read, or two of its instant differ.</summary>
    /// <param name="at">UTC ticks.</param>
    public static bool Holds(in Timeline timeline, in AirwaySpan airway, long at) => InnerDiameter.IsUnread(timeline, airway, at);
}
