namespace AirwayGuard.Core.Judging;

/// <summary>What a judgement hangs on besides facts and rules.</summary>
/// <param name="AsOf">The time judged at, UTC ticks.</param>
/// <param name="WaitsAreOver">A single run over all the charting there is: nothing more will be charted.</param>
public readonly record struct JudgeSettings(long AsOf, bool WaitsAreOver, UnknownAge UnknownAge);
