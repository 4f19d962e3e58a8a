namespace AirwayGuard.TestKit.Histories;

/// <summary>Reasons that let a check pass: any allowance-reason, or thick secretions.</summary>
internal static class Reasons
{
    private static readonly HashSet<string?> Known = new(StringComparer.Ordinal)
    {
        "thick-secretions", "suspected-obstruction", "emergency", "lung-injury", "raised-intracranial-pressure", "bleeding-risk",
        "shallow-ineffective", "order-specific", "other-with-text",
    };

    // With the pass, its session, or on its order.
    public static bool Allow(Checks checks, Pass pass) =>
        checks.Passes.Sessions.Single(s => s.Contains(pass)).Any(p => p.Items(checks.Known).Any(i => IsReason(checks, i)))
        || checks.Known.History.Orders.Any(o => o.Id == pass.Act?.Order && OrderChecks.IsMeant(o) && Counts(checks, o.Reason));

    public static bool Counts(Checks checks, string? reason) => Known.Contains(reason)
        && (checks.Choices.AnyReasonAllows || reason is "thick-secretions" or "order-specific" or "other-with-text");

    // Charted later, within 24 h.
    public static bool Later(Checks checks, Pass pass) =>
        Later(checks, pass.Start, checks.Choices.ReasonRunsFromTheStart ? pass.Start
            : checks.Passes.Sessions.Single(s => s.Contains(pass)).Max(p => p.Over(checks.Known)));

    public static bool Later(Checks checks, SuctionOrder order) => checks.Choices.LaterReasonClearsAnOrder && Later(checks, order.Authored, order.Authored);

    private static bool Later(Checks checks, DateTimeOffset at, DateTimeOffset from) => checks.Known.Items.Any(i => i.At > at && i.At <= from.AddHours(24)
        && IsReason(checks, i) && (i.Concept == "allowance-reason" || checks.Choices.LaterThickSecretionsClear));

    private static bool IsReason(Checks checks, Item item) => item switch
    {
        { Concept: "allowance-reason" } => Counts(checks, item.Answer),
        { Concept: "secretion-consistency" } => item.Answer == "thick",
        _ => false,
    };
}
