namespace AirwayGuard.Host.DemoWard.Charting;

/// <summary>
/// What is charted for every patient, within policy: signs by the hour, oxygen by four hours, the airway by the shift, and suctions
/// as they are needed. Minutes of the hour are set apart, so that no two columns fall on one.
/// </summary>
internal sealed class Routine(WardPatient patient, Random random)
{
    private const int VentilatorMinute = 2, AirwayMinute = 4, NursingMinute = 6;

    private static readonly WardAnswer[] Indications =
        [WardAnswer.CoarseSounds, WardAnswer.SecretionsSeen, WardAnswer.SecretionsHeard, WardAnswer.PressureAlarm];

    private readonly PatientChart _chart = new(patient);

    public PatientChart Fill()
    {
        for (var hour = 0; hour < 48; hour++)
        {
            AddVitals(hour);
            AddByTheClock(hour);
        }

        for (var hour = 2; hour < 46; hour += patient.RoundEvery)
        {
            _chart.Add(Round((hour * 60) + random.Next(15, 41)));
        }

        return _chart;
    }

    private void AddVitals(int hour)
    {
        var column = Signs(new ChartColumn(hour * 60, ColumnKind.Vitals));
        if (hour % 4 == 0)
        {
            column.Set(WardRow.Breaths, patient.Unit.Breaths + random.Next(-3, 4), "/min");
        }

        _chart.Add(column);
    }

    private void AddByTheClock(int hour)
    {
        if (hour % 4 == 0)
        {
            _chart.Add(Staff((hour * 60) + VentilatorMinute, ColumnKind.Ventilator))
                .Set(WardRow.Oxygen, patient.Oxygen, "%").Set(WardRow.Peep, 5 + random.Next(0, 3), "cmH2O");
        }

        if (hour % 12 == 0 || (patient.Airway.IsTracheostomy && hour % 2 == 0))
        {
            AddAirway(hour);
        }

        if (hour % 8 == 0)
        {
            _chart.Add(Staff((hour * 60) + NursingMinute, ColumnKind.Nursing))
                .Tick(WardRow.Turned).Set(WardRow.Comfort, random.Next(0, 4), unit: null).Set(WardRow.Intake, random.Next(2, 30) * 5, "mL");
        }
    }

    private void AddAirway(int hour)
    {
        var column = _chart.Add(Staff((hour * 60) + AirwayMinute, ColumnKind.Airway)).Tick(WardRow.AirwaySeen);
        if (hour % 12 != 0)
        {
            return;
        }

        if (!patient.Airway.AsDevice)
        {
            column.Set(WardRow.TubeType, patient.Airway.Kind).Set(WardRow.TubeSize, patient.Airway.Size);
        }

        if (patient.Unit != WardUnit.Neonatal)
        {
            column.Set(WardRow.CuffPressure, random.Next(22, 29), "cmH2O");
        }
    }

    private SuctionRound Round(int minute)
    {
        var before = patient.Unit.Preoxygenates ? Staff(minute - 1, ColumnKind.BeforePass).Set(WardRow.Oxygen, 100, "%") : null;
        var pass = Signs(Staff(minute, ColumnKind.Pass))
            .Tick(WardRow.SuctionDone)
            .Set(WardRow.PassSeconds, random.Next(patient.Unit.ShortestPass, patient.Unit.LongestPass + 1), "sec")
            .Set(WardRow.Indication, Indications[random.Next(Indications.Length)])
            .Set(WardRow.SuctionSystem, patient.Airway.System)
            .Set(WardRow.CatheterSize, patient.Airway.Catheter)
            .Set(WardRow.SecretionColour, random.Next(2) == 0 ? WardAnswer.Clear : WardAnswer.White)
            .Set(WardRow.SecretionAmount, random.Next(2) == 0 ? WardAnswer.Small : WardAnswer.Moderate)
            .Set(WardRow.SecretionThickness, WardAnswer.Thin)
            .Set(patient.Gauge.Row, patient.Gauge.Usual + random.Next(-patient.Gauge.Spread, patient.Gauge.Spread + 1), patient.Gauge.Unit)
            .Set(WardRow.VacuumMethod, WardAnswer.Occluded)
            .Set(WardRow.RegulatorMode, WardAnswer.Continuous);
        var after = Signs(Staff(minute + 4, ColumnKind.AfterPass)).Set(WardRow.Oxygen, patient.Oxygen, "%");
        var settled = Staff(minute + 12, ColumnKind.Ventilator).Set(WardRow.Oxygen, patient.Oxygen, "%");
        return new SuctionRound(before, pass, after, settled);
    }

    private ChartColumn Signs(ChartColumn column) => column
        .Set(WardRow.Spo2, 95 + random.Next(0, 4), "%")
        .Set(WardRow.HeartRate, patient.Unit.HeartRate + random.Next(-8, 9), "bpm");

    // Staff chart when they come to it; a monitor's row is there within the minute.
    private ChartColumn Staff(int minute, ColumnKind kind) =>
        new(minute, kind) { ChartedAfter = random.Next(3, 26), Regulator = _chart.NamedRegulator };
}
