namespace AirwayGuard.Host.DemoWard.Charting;

/// <summary>What stands in one cell of the flowsheet.</summary>
internal abstract record RowValue
{
    /// <param name="Unit">Unit text as charted; null for none.</param>
    public sealed record Number(decimal Value, string? Unit) : RowValue;

    public sealed record Words(string Value) : RowValue;

    public sealed record Answer(WardAnswer Value) : RowValue;

    public sealed record Tick(bool Value) : RowValue;

    /// <summary>Says its kind only.</summary>
    public sealed override string ToString() => GetType().Name;
}
