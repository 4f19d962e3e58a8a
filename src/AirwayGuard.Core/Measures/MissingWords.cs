namespace AirwayGuard.Core.Measures;

/// <summary>In words, what is missing; part of the command line's output.</summary>
public static class MissingWords
{
    public static string Of(Missing missing) => missing switch
    {
        Missing.BirthDate => "birth date",
        Missing.AgeInBirthDate => "birth date that is not in the future",
        Missing.VacuumValue => "readable vacuum value",
        Missing.VacuumUnit => "vacuum unit that can be trusted",
        Missing.RegulatorMode => "regulator mode",
        Missing.OccludedReading => "reading with the tubing occluded",
        Missing.SuctionUse => "what the regulator is used for",
        Missing.Patient => "which patient the regulator serves",
        Missing.CatheterSize => "catheter size",
        Missing.TubeInnerDiameter => "tube inner diameter",
        Missing.InnerCannulaDiameter => "inner cannula diameter",
        Missing.PassDuration => "pass duration",
        Missing.DurationOfEachPass => "duration of each pass",
        Missing.BaselineOxygen => "baseline inspired oxygen",
        Missing.ExactValue => "exact value",
        Missing.OrderTiming => "timing of the order",
        Missing.ReadingMethod => "how the vacuum was read",
        Missing.CalibrationDate => "date of calibration",
        Missing.TubeLength => "tube length",
        Missing.AdapterLength => "adapter length",
        Missing.ClosedCatheter => "which closed catheter is in place",
        Missing.OxygenGiven => "how much oxygen was given",
        Missing.OxygenAfterwards => "inspired oxygen charted afterwards",
        Missing.SuctionSystem => "open or closed suction",
        Missing.Peep => "PEEP",
        Missing.EncounterClass => "class of the encounter",
        Missing.SalineVolume => "volume of saline",
        Missing.BodyWeight => "body weight",
        Missing.SaturationBefore => "oxygen saturation before the pass",
        Missing.SaturationAfter => "oxygen saturation after the pass",
        Missing.HeartRate => "heart rate after the pass",
        Missing.AirwayType => "kind of airway",
        Missing.GestationalAge => "readable gestational age at birth",
        Missing.IntracranialPressureMonitored => "readable charting of whether intracranial pressure is monitored",
        Missing.LungInjury => "readable charting of whether there is lung injury",
        Missing.BleedingRisk => "readable charting of whether there is a risk of bleeding",
        Missing.HyperoxygenationContraindicated => "readable charting of whether hyperoxygenation is contraindicated",
        Missing.VentilatorDisconnected => "readable charting of whether the ventilator was disconnected",
        Missing.WhetherForbidden => "whether an order asks for suction or forbids it",
        _ => "",
    };
}
