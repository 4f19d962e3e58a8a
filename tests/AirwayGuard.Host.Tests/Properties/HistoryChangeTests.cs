using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Host.Tests.Properties;

/// <summary>What a change of a random history may change in what is judged; a class of its own, so that it runs beside the comparison with the reference.</summary>
public sealed class HistoryChangeTests
{
    [Fact]
    public void OrderBatchingAndRepetitionChangeNothing() => Each(100, 100, seed => HistoryProperties.OrderBatchesAndRepeatsChangeNothing(EngineRuns.Judge, seed));

    [Fact]
    public void TheSameValueInAnyUnitGivesTheSameVerdict() => Each(101, 100, seed => HistoryProperties.UnitsChangeNoVerdict(HistoryProperties.Behind(EngineRuns.Judge), seed));

    [Fact]
    public void ShiftedTimesGiveTheSameVerdicts() => Each(102, 100, seed => HistoryProperties.TimeShiftsChangeNoVerdict(HistoryProperties.Behind(EngineRuns.Judge), seed));

    [Fact]
    public void RemovingFactsMakesNothingPass() => Each(103, 40, seed => HistoryProperties.MissingFactsNeverPass(HistoryProperties.Behind(EngineRuns.Judge), seed));

    [Fact]
    public void EnteredInErrorIsNeverCharted() => Each(104, 100, seed => HistoryProperties.EnteredInErrorIsNeverCharted(HistoryProperties.Behind(EngineRuns.Judge), seed));

    [Fact]
    public void WhatIsKnownLaterChangesNothingBefore() => Each(105, 100, seed => HistoryProperties.LaterFactsChangeNothingBefore(HistoryProperties.Behind(EngineRuns.Judge), seed));

    [Fact]
    public void AnotherPatientChangesNothing() => Each(106, 100, seed => HistoryProperties.AnotherPatientChangesNothing(EngineRuns.Judge, seed));

    [Fact]
    public void JudgingBatchByBatchEqualsJudgingAtOnce() => Each(107, 60, seed => HistoryProperties.BatchByBatchEqualsAtOnce(EngineBatches.Judge, EngineRuns.Judge, seed));

    private static void Each(int block, int count, Action<int> property)
    {
        for (var i = 0; i < count; i++)
        {
            property((block * 1000) + i);
        }
    }
}
