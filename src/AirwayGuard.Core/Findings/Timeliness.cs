using AirwayGuard.Core.Judging;

namespace AirwayGuard.Core.Findings;

/// <summary>How late charting became known, and what is too old to be shown as new.</summary>
public static class Timeliness
{
    /// <summary>Whether it became known more than <paramref name="lateAfter"/> after it happened.</summary>
    /// <param name="knownAt">When the last row it rests on became known.</param>
    public static bool IsLate(Occurrence occurrence, DateTimeOffset knownAt, TimeSpan lateAfter) =>
        Happened(occurrence) && occurrence.Limit.Comparison != Comparison.Missing && knownAt.UtcTicks - occurrence.At > lateAfter.Ticks;

    /// <summary>Whether all of it happened more than <paramref name="newFor"/> before <paramref name="now"/>.</summary>
    public static bool IsOld(DerivedFinding finding, DateTimeOffset now, TimeSpan newFor) =>
        finding.Occurrences.All(occurrence => Happened(occurrence) && now.UtcTicks - occurrence.At > newFor.Ticks);

    // What was done or read at a time is history afterwards. An order in force, a tube in place and time that has run out are so
    // until they are mended, however long ago it began.
    private static bool Happened(Occurrence occurrence) => occurrence.Kind is not (SubjectKind.Order or SubjectKind.Airway or SubjectKind.SuctionedAirway or SubjectKind.Due);
}
