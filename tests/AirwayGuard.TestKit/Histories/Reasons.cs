namespace AirwayGuard.TestKit.Histories;

/// <summary>Reasons that let a check pass: any allowance-reason, or thick secretions.</summary>
internal static class Reasons
{
    private static readonly HashSet<string?> Known = new(StringComparer.Ordinal)
    {
        "thick-secretions", "suspected-obstruction", "emergency", "lung-injury", "raised-intracranial-pressure", "bleeding-risk",
        "shallow-ineffective", "order-specific", "other-with-text",
    };

    // With the pass, its session or while that lasted, or on its order.
    public static bool Allow(Checks checks, Pass pass) =>
        Session(checks, pass).Any(p => p.Items(checks.Known).Any(i => IsReason(i)))
        || checks.Known.Items.Any(i => i.At >= Session(checks, pass)[0].Start && i.At <= Over(checks, pass) && IsReason(i))
        || checks.Known.History.Orders.Any(o => o.Id == pass.Act?.Order && OrderChecks.IsMeant(o) && o.Status != "draft" && Counts(o.Reason));

    public static bool Counts(string? reason) => Known.Contains(reason);

    // Charted later, within 24 h after the session.
    public static bool Later(Checks checks, Pass pass) => Later(checks, Over(checks, pass));

    public static bool Later(Checks checks, SuctionOrder order) => Later(checks, order.Authored);

    private static bool Later(Checks checks, DateTimeOffset over) => checks.Known.Items.Any(i => i.At > over && i.At <= over.AddHours(24) && IsReason(i));

    private static IReadOnlyList<Pass> Session(Checks checks, Pass pass) => checks.Passes.Sessions.Single(s => s.Contains(pass));

    private static DateTimeOffset Over(Checks checks, Pass pass) => Session(checks, pass).Max(p => p.End ?? p.Start);

    private static bool IsReason(Item item) => item switch
    {
        { Concept: "allowance-reason" } => Counts(item.Answer),
        { Concept: "secretion-consistency" } => item.Answer == "thick",
        _ => false,
    };
}
