namespace AirwayGuard.Host.DemoWard.Charting;

/// <summary>The columns of one suction: oxygen raised before it, the pass, and how the patient was afterwards.</summary>
/// <param name="Before">Null where oxygen is not raised.</param>
internal sealed record SuctionRound(ChartColumn? Before, ChartColumn Pass, ChartColumn After)
{
    public IEnumerable<ChartColumn> Columns => Before is null ? [Pass, After] : [Before, Pass, After];
}
