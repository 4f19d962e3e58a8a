using AirwayGuard.Host.DemoWard.Charting;
using AirwayGuard.Host.DemoWard.Writing;

namespace AirwayGuard.Host.DemoWard;

/// <summary>The demo ward: three units of an invented hospital over 48 h. The same end and seed give the same bytes.</summary>
internal static class WardPlan
{
    /// <summary>The resource that is loaded last and says that the whole ward is there.</summary>
    public const string MarkerType = "Basic", MarkerId = "willowmere-ward";

    /// <summary>Every resource, in an order in which each follows what it refers to; rows in the order in which they were charted.</summary>
    /// <param name="end">End of the 48 h, cut to its minute.</param>
    /// <param name="seed">Varies what lies within policy; the stories stay.</param>
    public static IReadOnlyList<WardResource> Build(DateTimeOffset end, int seed)
    {
        var clock = new WardClock(end);
        var charts = Charts(seed);
        return
        [
            .. PlacesJson.Of(WardRoll.Patients),
            .. charts.SelectMany(chart => PatientJson.Of(chart, clock)),
            .. charts.SelectMany(chart => DevicesJson.Of(chart, clock)),
            .. WardRoll.Patients.SelectMany(patient => OutletsJson.Of(patient, clock)),
            .. charts.Select(chart => OrderJson.Of(chart, clock)),
            .. RowsAsCharted(charts).Select(row => ObservationJson.Of(row.Chart.Patient, row.Column, row.Row, row.Value, clock)),
            MarkerJson.Of(clock, seed),
        ];
    }

    /// <summary>Second versions, to be sent once the ward is loaded.</summary>
    public static IReadOnlyList<WardResource> Corrections(DateTimeOffset end, int seed)
    {
        var clock = new WardClock(end);
        return [.. Charts(seed).SelectMany(chart => chart.Corrections.Select(
            one => ObservationJson.Of(chart.Patient, one.Column, one.Row, one.Right, clock, isCorrection: true)))];
    }

    private static List<PatientChart> Charts(int seed) => [.. WardRoll.Patients.Select((patient, index) => Chart(patient, new Random(unchecked((seed * 397) + index))))];

    private static PatientChart Chart(WardPatient patient, Random random)
    {
        var chart = new Routine(patient, random).Fill();
        patient.Story?.Invoke(chart);
        return chart;
    }

    private static IEnumerable<(PatientChart Chart, ChartColumn Column, string Row, RowValue Value)> RowsAsCharted(List<PatientChart> charts) =>
        charts.SelectMany(chart => chart.Columns.Select(column => (Chart: chart, Column: column)))
            .OrderBy(one => one.Column.Minute + one.Column.ChartedAfter)
            .SelectMany(one => one.Column.Cells.Select(cell => (one.Chart, one.Column, cell.Row, cell.Value)));
}
