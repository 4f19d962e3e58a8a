namespace AirwayGuard.Core.Judging;

/// <summary>How well a limit's source is known; shown wherever the limit is.</summary>
public enum SourceStatus : byte
{
    /// <summary>Read in the named source.</summary>
    Cited,

    /// <summary>Common practice without a source.</summary>
    CommonPractice,

    /// <summary>From memory: the source was not opened.</summary>
    FromMemory,

    /// <summary>Cited, but another publication of the same source prints another figure.</summary>
    Disputed,
}
