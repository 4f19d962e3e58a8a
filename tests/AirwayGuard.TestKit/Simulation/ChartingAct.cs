namespace AirwayGuard.TestKit.Simulation;

/// <summary>One thing a person does at the server.</summary>
/// <param name="After">Time after the beginning at which it is done, at the earliest.</param>
/// <param name="Type">Type and id of what is charted or deleted; empty for what is done to a resource of ours.</param>
/// <param name="Json">The resource that is charted.</param>
/// <param name="Says">In one line, for a schedule that is printed.</param>
internal sealed record ChartingAct(ActKind Kind, string Patient, TimeSpan After, string Type, string Id, string Json, string Says)
{
    /// <summary>It is done to a Flag or DetectedIssue of ours.</summary>
    public bool IsOnOurs => Kind > ActKind.DeleteRow;

    /// <summary>
    /// Of what is done to one of ours: the key of the one that was in force then in the run without faults; null if there was none, and
    /// nothing is done.
    /// </summary>
    public Guid? Target { get; set; }

    public override string ToString() => Says;
}
