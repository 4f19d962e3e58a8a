namespace AirwayGuard.TestKit.Simulation;

/// <summary>A promise of the pipeline broken on purpose, to show that the simulator notices.</summary>
public enum Sabotage
{
    None,

    /// <summary>The cursor moves in a commit of its own, before the rows it passes are kept.</summary>
    CursorMovesFirst,

    /// <summary>A decision keeps no due times.</summary>
    DueTimesForgotten,

    /// <summary>What is created carries no condition: sent twice, it is there twice.</summary>
    CreatesUnconditionally,

    /// <summary>Of several messages that a decision sends, the first is not written down.</summary>
    OutboxForgotten,
}
