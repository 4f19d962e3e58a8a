using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Judging;

/// <summary>Which messages go out first: somebody may act on a fresh breach, and nobody on one of last week.</summary>
internal static class Urgencies
{
    /// <param name="wasSent">It is shown on the server.</param>
    /// <param name="lateAfter">What happened longer ago is not fresh.</param>
    public static Urgency Of(FindingPlanItem item, bool wasSent, DateTimeOffset now, TimeSpan lateAfter)
    {
        if (item.Finding is not { } finding)
        {
            // What no longer stands is taken back.
            return Urgency.Fresh;
        }

        var (at, isSpell) = (item.Occurrence?.At ?? finding.Latest.At, item.Kind == FindingKind.Spell);
        return now.UtcTicks - at <= lateAfter.Ticks || (wasSent && isSpell && finding.State != FindingState.Open) ? Urgency.Fresh
            : finding.Stands && finding.State == FindingState.Open && (isSpell || item.Occurrence?.Key == finding.Latest.Key) ? Urgency.Stands
            : Urgency.History;
    }
}
