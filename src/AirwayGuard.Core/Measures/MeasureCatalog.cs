using System.Collections.Immutable;

namespace AirwayGuard.Core.Measures;

/// <summary>The measures that rule sets may name.</summary>
public static class MeasureCatalog
{
    public static readonly ImmutableArray<Measure> All =
    [
        VacuumPressure.Measure,
        VacuumUnitDoubt.Measure,
        RegulatorMode.Measure,
        CatheterToTubeRatio.Measure,
        PassDuration.Measure,
        PreoxygenationGiven.Measure,
        BloodStainedSessions.Measure,
        FrankBlood.Measure,
        OrderTiming.Measure,
        VacuumReadingAge.Measure,
        WallSupply.Measure,
        WallSupplySurveys.Measure,
        TubeDiameter.Measure,
        SalineGiven.Measure,
        SalineVolume.Measure,
        OrderedVacuum.Measure,
        LeastVacuum.Measure,
        VacuumCheck.Measure,
        VacuumReadingMethod.Measure,
        SetVacuumDifference.Measure,
        RegulatorCalibration.Measure,
        VacuumAtBleedingRisk.Measure,
        CatheterWithThickSecretions.Measure,
        TubeSinceCatheterChosen.Measure,
        DepthBeyondTube.Measure,
        SafeDepth.Measure,
        DepthTechnique.Measure,
        ClosedCatheterUse.Measure,
        CuffPressure.Measure,
        IntracranialPressureMonitored.Measure,
        HyperoxygenationContraindicated.Measure,
        PassesInSession.Measure,
        RestBetweenPasses.Measure,
        PreoxygenationLength.Measure,
        OxygenRise.Measure,
        OxygenRaisedAfter.Measure,
        PeepAtOpenSuction.Measure,
        OxygenAtOpenSuction.Measure,
        DisconnectedInLungInjury.Measure,
        HandTechniqueInHospital.Measure,
        TimeSinceSurfactant.Measure,
        SalineDose.Measure,
        IndicationCharted.Measure,
        TracheostomyAssessmentAge.Measure,
        TrachealTubeAssessmentAge.Measure,
        SessionsInDay.Measure,
        SuctionAgainstOrder.Measure,
        VitalsAroundPass.Measure,
        SaturationFall.Measure,
        SaturationNadir.Measure,
        DesaturationReaction.Measure,
        LowestHeartRate.Measure,
        HighestHeartRate.Measure,
        RhythmReaction.Measure,
        OutcomeCharted.Measure,
        OrderReading.Measure,
        OrderedMode.Measure,
    ];

    private static readonly Dictionary<string, Measure> ById = All.ToDictionary(measure => measure.Id, StringComparer.Ordinal);

    public static bool TryFind(string id, out Measure measure)
    {
        var found = ById.TryGetValue(id, out var match);
        measure = match!;
        return found;
    }
}
