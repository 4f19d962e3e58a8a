namespace AirwayGuard.TestKit.Simulation;

/// <summary>A promise of the pipeline broken on purpose, to show that the simulator notices.</summary>
public enum Sabotage
{
    None,

    /// <summary>The cursors move in a commit of their own, before the rows they pass are kept.</summary>
    CursorMovesFirst,

    /// <summary>A decision keeps no due times.</summary>
    DueTimesForgotten,

    /// <summary>What is created carries no condition: sent twice, it is there twice.</summary>
    CreatesUnconditionally,

    /// <summary>Of several messages that a decision sends, the first is not written down.</summary>
    OutboxForgotten,

    /// <summary>The wide sweep looks back no further than the cursor.</summary>
    OverlapForgotten,

    /// <summary>An answer that is no page counts as an empty one.</summary>
    TroubleTakenForEmpty,

    /// <summary>A page without a link to what follows counts as the last.</summary>
    PagesTrusted,

    /// <summary>Nobody asks what was deleted.</summary>
    DeletionsNotAsked,

    /// <summary>A commit that failed counts as done.</summary>
    FullDiskIgnored,

    /// <summary>A decision is taken under whatever claim is the newest.</summary>
    FenceIgnored,

    /// <summary>Whoever sends never notices that the claim has run out.</summary>
    LeaseIgnored,

    /// <summary>A search by identifier shows one only: a second copy is never noticed.</summary>
    CopiesUnnoticed,

    /// <summary>A person's change is taken for a version of ours.</summary>
    PersonsHandUnnoticed,

    /// <summary>What was sent before is not remembered: a resource that a person deleted is created again.</summary>
    SentForgotten,
}
