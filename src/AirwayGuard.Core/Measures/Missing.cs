namespace AirwayGuard.Core.Measures;

/// <summary>What a verdict lacked. Its words are <see cref="MissingWords"/>.</summary>
public enum Missing : byte
{
    Nothing,
    BirthDate,
    VacuumValue,
    VacuumUnit,
    RegulatorMode,
    OccludedReading,
    SuctionUse,
    Patient,
    CatheterSize,
    TubeInnerDiameter,
    InnerCannulaDiameter,
    PassDuration,
    DurationOfEachPass,
    BaselineOxygen,
    ExactValue,
    AgeInBirthDate,
    OrderTiming,
    OxygenGiven,
    OxygenAfterwards,
    SuctionSystem,
    Peep,
    EncounterClass,
    SalineVolume,
    BodyWeight,
}
