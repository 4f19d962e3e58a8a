using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What stands on an episode ends with it, and whether it has ended is known once the hour that a new tube may take is over.</summary>
public sealed class EpisodeEndTests
{
    [Theory]
    [InlineData("12:59", "breach 12")]
    [InlineData("13:00", "cleared 12")]
    public void What_stands_when_the_tube_is_out_ends_an_hour_later(string asOf, string said) =>
        Assert.Equal(said, Adult().Row("t", Concepts.AirwayType, "08:00", Answer("tracheal-tube"))
            .Row("peep", Concepts.Peep, "09:00", Number(12, Unit.CmH2O)).Oxygen("09:00", 30)
            .Pass("p", "10:00", (Concepts.SuctionSystem, Answer("open")))
            .Row("out", Concepts.AirwayType, "12:00", Answer("none"))
            .Judge(asOf: asOf).Said("open-suction-where-closed-advised"));
}
