namespace AirwayGuard.TestKit.Histories;

/// <summary>Where the words leave two readings open, the one the reference judge takes; each can be turned over by itself.</summary>
public sealed record ReferenceChoices
{
    /// <summary>Frank blood in any of the last three sessions, else in the session judged only.</summary>
    public bool FrankCountsInTheLastThree { get; init; } = true;

    /// <summary>The judged session may itself be clear.</summary>
    public bool ClearSessionMayComplete { get; init; } = true;

    /// <summary>A charted set value may clear a vacuum spell like a reading without method.</summary>
    public bool SetValueClears { get; init; } = true;

    /// <summary>An airway episode that has ended clears what stands on it.</summary>
    public bool EndedLineClears { get; init; } = true;

    /// <summary>preoxygenation-missing is reported at the pass's start, not when the wait of two hours was over.</summary>
    public bool MissingIsAtThePass { get; init; } = true;

    /// <summary>pass-too-long beside a pass-count n &gt; 1 shows the duration divided by n, the value that breached.</summary>
    public bool LongPassShowsTheShare { get; init; } = true;

    /// <summary>An order that says neither time nor need is cannot-tell, not silent, for suction-ordered-by-clock.</summary>
    public bool UntimedOrderIsCannotTell { get; init; } = true;

    /// <summary>Checks that both rule sets ship silent are told too.</summary>
    public bool SilentToo { get; init; }

    /// <summary>A reading by a metric of category setting is a set value, so for vacuum-reading-stale none was read.</summary>
    public bool SettingMetricReadsNothing { get; init; } = true;
}
