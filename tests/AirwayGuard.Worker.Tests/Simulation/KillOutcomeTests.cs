using AirwayGuard.TestKit.Kills;
using Xunit;

namespace AirwayGuard.Worker.Tests.Simulation;

public sealed class KillOutcomeTests
{
    private static readonly KillOutcome Outcome = new(new KillSettings("airwayguard.dll", 60, 7), ["life 1", "life 2"], ["a fault"]) { Rows = 40, PersonsActs = 3, Findings = 9, DueTimes = 1 };

    [Fact]
    public void ARunThatWasCutOff_SaysItsSeedAndTheFiguresSoFar_AndThatItComparedNothing() => Assert.Equal(
        "seed 7, cut off after 2 of 60 kills: 40 rows, 3 persons' acts, 1 troubles seen; findings were not compared", (Outcome with { IsCutOff = true }).Sum);

    [Fact]
    public void AWholeRun_SaysWhatItCameTo() =>
        Assert.Equal("60 kills, 40 rows, 3 persons' acts, 9 findings, 1 due times, 1 promises broken", Outcome.Sum);
}
