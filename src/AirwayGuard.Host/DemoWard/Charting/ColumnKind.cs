namespace AirwayGuard.Host.DemoWard.Charting;

/// <summary>What a column is charted for.</summary>
internal enum ColumnKind
{
    Vitals, Stream, Ventilator, Airway, Nursing, BeforePass, Pass, AfterPass, Regulator,
}
