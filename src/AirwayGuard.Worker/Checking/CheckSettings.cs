using AirwayGuard.Core.Judging;

namespace AirwayGuard.Worker.Checking;

/// <summary>How a single run over given resources judges.</summary>
/// <param name="AsOf">Leaves out what begins later and is the time at which absences are judged; null: the latest time used, all waits over.</param>
public sealed record CheckSettings(DateTimeOffset? AsOf, UnknownAge UnknownAge)
{
    /// <summary>Known this much later than it happened, a finding is marked late.</summary>
    public static readonly TimeSpan LateAfter = TimeSpan.FromHours(2);

    public static readonly CheckSettings Default = new(null, UnknownAge.CannotTell);
}
