using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>For measures of what falls due.</summary>
internal static class DueTimes
{
    /// <summary>Sets no value of its own: the time that ran is what is compared.</summary>
    public static void Elapsed(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
    }
}
