namespace AirwayGuard.Host.DemoWard.Charting;

/// <summary>One column of a patient's flowsheet: what was charted for one minute.</summary>
internal sealed class ChartColumn(int minute, ColumnKind kind)
{
    private readonly List<(string Row, RowValue Value)> _cells = [];

    /// <summary>Minutes from the start of the 48 h.</summary>
    public int Minute => minute;

    public ColumnKind Kind => kind;

    /// <summary>Minutes from when it was so until it was charted.</summary>
    public int ChartedAfter { get; set; } = 1;

    /// <summary>Sent by a monitor or pump, with its times at +00:00.</summary>
    public bool ByMonitor => kind is ColumnKind.Vitals or ColumnKind.Stream;

    /// <summary>Reference of the Device or DeviceMetric that the regulator's rows name; null for none.</summary>
    public string? Regulator { get; init; }

    public IReadOnlyList<(string Row, RowValue Value)> Cells => _cells;

    public ChartColumn Set(string row, decimal number, string? unit) => Set(row, new RowValue.Number(number, unit));

    public ChartColumn Set(string row, string words) => Set(row, new RowValue.Words(words));

    public ChartColumn Set(string row, WardAnswer answer) => Set(row, new RowValue.Answer(answer));

    public ChartColumn Tick(string row) => Set(row, new RowValue.Tick(true));

    public ChartColumn Drop(string row)
    {
        _cells.RemoveAll(cell => cell.Row == row);
        return this;
    }

    private ChartColumn Set(string row, RowValue value)
    {
        var index = _cells.FindIndex(cell => cell.Row == row);
        if (index < 0)
        {
            _cells.Add((row, value));
        }
        else
        {
            _cells[index] = (row, value);
        }

        return this;
    }
}
