namespace AirwayGuard.Core.Suctioning;

/// <summary>How long facts hold and what belongs together, in ticks. The gaps and how long facts hold are common practice, no source.</summary>
public static class CareTimes
{
    /// <summary>A gap without an airway shorter than this does not break an episode.</summary>
    public const long EpisodeGap = TimeSpan.TicksPerHour;

    /// <summary>A pass that starts at most this long after the one before ended belongs to the same session.</summary>
    public const long SessionGap = 5 * TimeSpan.TicksPerMinute;

    /// <summary>A regulator's mode and set value hold at most this long.</summary>
    public const long ModeHolds = 12 * TimeSpan.TicksPerHour;

    /// <summary>Oxygen and PEEP hold this long.</summary>
    public const long OxygenHolds = 4 * TimeSpan.TicksPerHour;

    /// <summary>Baseline oxygen is read at least this long before a pass.</summary>
    public const long BaselineBefore = 3 * TimeSpan.TicksPerMinute;

    /// <summary>Pre-oxygenation counts from this long before a pass.</summary>
    public const long PreoxygenationBefore = 2 * TimeSpan.TicksPerMinute;

    /// <summary>Rows that share an identifier's prefix are one column only if they lie this close together: a prefix alone may be a whole stay's.</summary>
    public const long GroupSpan = 15 * TimeSpan.TicksPerMinute;

    /// <summary>Where no stay is charted, a pass or row ties the device that it names to its patient for this long, before and after.</summary>
    public const long NamingHolds = TimeSpan.TicksPerDay;

    /// <summary>Vacuum read at most this long before a pass was checked for it (from memory).</summary>
    public const long VacuumCheckBefore = 15 * TimeSpan.TicksPerMinute;

    /// <summary>Two durations of one pass agree within this.</summary>
    public const decimal DurationToleranceSeconds = 1m;
}
