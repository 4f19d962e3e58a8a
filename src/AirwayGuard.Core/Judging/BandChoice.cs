using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>The age bands possible for a subject and the limit that follows.</summary>
/// <param name="Lacks">What would tell the band; nothing where one is certain.</param>
internal readonly record struct BandChoice(AgeBand Youngest, AgeBand Oldest, Missing Lacks)
{
    public bool IsFuture => Lacks == Missing.AgeInBirthDate;

    /// <summary>The band where one is certain; else unknown.</summary>
    public AgeBand Band => Youngest == Oldest && !IsFuture ? Youngest : AgeBand.Unknown;

    public static BandChoice Of(in Timeline timeline, in Subject subject)
    {
        Ages.Bands(timeline, subject.From, subject.OffsetMinutes, out var youngest, out var oldest, out var lacks);
        return new BandChoice(youngest, oldest, lacks);
    }

    /// <summary>A band without a limit is not judged; where several are possible, one with a limit suffices to ask.</summary>
    public bool AnyJudged(BandLimits limits)
    {
        for (var band = Youngest; band <= Oldest; band++)
        {
            if (limits.For(band) is not null)
            {
                return true;
            }
        }

        return false;
    }

    /// <returns>Null where the age is needed and not known.</returns>
    public Limit? Limit(BandLimits limits, UnknownAge unknownAge, bool needsAge)
    {
        if (Band != AgeBand.Unknown)
        {
            return limits.For(Band);
        }

        // One limit for all four bands needs no age.
        var common = limits.AreOne ? limits.For(AgeBand.Neonate) : null;
        if (common is not null && !needsAge)
        {
            return common;
        }

        return unknownAge == UnknownAge.StrictestBand && !needsAge && !IsFuture ? Strictest(limits) : null;
    }

    private Limit? Strictest(BandLimits limits)
    {
        Limit? strictest = null;
        for (var band = Youngest; band <= Oldest; band++)
        {
            if (limits.For(band) is { } limit)
            {
                strictest = strictest is null ? limit : LimitCheck.Stricter(strictest, limit);
            }
        }

        return strictest;
    }
}
