namespace AirwayGuard.TestKit.Simulation;

/// <summary>In what the server of a run differs from a plain one.</summary>
internal enum ServerHabit
{
    Plain,

    /// <summary>Its clock is ten minutes ahead of ours.</summary>
    ClockAhead,

    /// <summary>Its clock is ten minutes behind ours.</summary>
    ClockBehind,

    /// <summary>Its clock is set, forwards or back, and its stamps go with it.</summary>
    ClockSteps,

    /// <summary>Some rows get their stamp up to two minutes before anybody can see them.</summary>
    HidesRows,
}
