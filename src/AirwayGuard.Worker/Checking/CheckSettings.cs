using AirwayGuard.Core.Judging;

namespace AirwayGuard.Worker.Checking;

/// <summary>How a single run over given resources judges.</summary>
/// <param name="AsOf">Leaves out what begins later and is the time at which absences are judged; null: the latest time used, all waits over.</param>
public sealed record CheckSettings(DateTimeOffset? AsOf, UnknownAge UnknownAge)
{
    public static readonly CheckSettings Default = new(null, UnknownAge.CannotTell);
}
