namespace AirwayGuard.Host.DemoWard.Charting;

/// <summary>The columns of one suction: oxygen raised before it, the pass, how the patient was afterwards, and oxygen once settled.</summary>
/// <param name="Before">Null where oxygen is not raised.</param>
internal sealed record SuctionRound(ChartColumn? Before, ChartColumn Pass, ChartColumn After, ChartColumn Settled)
{
    public IEnumerable<ChartColumn> Columns => Before is null ? [Pass, After, Settled] : [Before, Pass, After, Settled];
}
