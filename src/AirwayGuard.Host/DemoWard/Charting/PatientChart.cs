namespace AirwayGuard.Host.DemoWard.Charting;

/// <summary>The flowsheet of one patient over the 48 h; a story changes what the routine charted.</summary>
internal sealed class PatientChart(WardPatient patient)
{
    private readonly SortedDictionary<int, ChartColumn> _columns = [];
    private readonly List<SuctionRound> _rounds = [];
    private readonly List<CellCorrection> _corrections = [];

    public WardPatient Patient => patient;

    public IEnumerable<ChartColumn> Columns => _columns.Values;

    /// <summary>Suctions in their order.</summary>
    public IReadOnlyList<SuctionRound> Rounds => _rounds;

    public SuctionRound LastRound => _rounds[^1];

    public IReadOnlyList<CellCorrection> Corrections => _corrections;

    /// <summary>An inner cannula put into the tube; null for none.</summary>
    public InnerCannula? InnerCannula { get; set; }

    /// <summary>The suction order falls due by the clock, every so many hours; null for as needed.</summary>
    public int? OrderedEveryHours { get; set; }

    /// <summary>Metric through which the bed's regulator sends its set value; null where it sends none.</summary>
    public string? StreamedMetric { get; set; }

    /// <summary>A second regulator at the bed, for the stomach; null for none.</summary>
    public string? GastricRegulator { get; set; }

    /// <summary>Reference of the regulator that the unit's staff name; null where they name none.</summary>
    public string? NamedRegulator => patient.Unit.NamesRegulators ? "Device/" + patient.Regulator : null;

    /// <exception cref="ArgumentException">The minute already has a column.</exception>
    public ChartColumn Add(ChartColumn column)
    {
        _columns.Add(column.Minute, column);
        return column;
    }

    public void Add(SuctionRound round)
    {
        _rounds.Add(round);
        foreach (var column in round.Columns)
        {
            Add(column);
        }
    }

    public void Remove(ChartColumn column) => _columns.Remove(column.Minute);

    /// <summary>Takes out a suction with all its columns.</summary>
    public void Remove(SuctionRound round)
    {
        _rounds.Remove(round);
        foreach (var column in round.Columns)
        {
            Remove(column);
        }
    }

    /// <summary>A value charted wrongly, and put right once everything was loaded.</summary>
    public void Correct(ChartColumn column, string row, decimal wrong, decimal right, string unit)
    {
        column.Set(row, wrong, unit);
        _corrections.Add(new CellCorrection(column, row, new RowValue.Number(right, unit)));
    }
}
