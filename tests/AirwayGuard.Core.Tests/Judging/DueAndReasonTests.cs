using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What falls due without a row, what a reason lets pass or ends, and what is judged of an airway.</summary>
public sealed class DueAndReasonTests
{
    // Read at 08:00, suctioned at 18:00: due after 12 hours, at 20:00, and once.
    [Theory]
    [InlineData("19:59", null)]
    [InlineData("20:00", null)]
    [InlineData("20:01", FindingState.Open)]
    public void AReadingGoesStaleOnlyOnceItsHoursAreOver(string asOf, FindingState? state)
    {
        var found = Suctioned().Judge(asOf: asOf);

        Assert.Equal(state, Stale(found)?.State);
        Assert.Equal(state is null ? [At("20:00") + TimeSpan.TicksPerMillisecond] : [], found.Due.Where(due => due.Check == "vacuum-reading-stale").Select(due => due.At));
    }

    [Fact]
    public void AStaleReadingEndsWithTheNextOneAndBeginsAnew()
    {
        var found = Suctioned().Row("v2", Concepts.VacuumPressure, "21:00", Number(100, Unit.MmHg)).Judge(asOf: "2 10:00");

        var stale = found.Findings.Where(finding => finding.Rule.Id == "vacuum-reading-stale").ToList();
        Assert.Equal([FindingState.Cleared, FindingState.Open], stale.Select(finding => finding.State));
        Assert.Equal([At("20:00"), At("2 09:00")], stale.Select(finding => finding.First.At));
        Assert.Equal(At("21:00"), stale[0].EndedAt);
        Assert.Equal(2, stale.Select(finding => finding.Flag).Distinct().Count());
    }

    [Fact]
    public void AnEpisodeNotSuctionedForADayNeedsNoReading()
    {
        var found = Chart().Row("v", Concepts.VacuumPressure, "08:00", Number(100, Unit.MmHg)).Judge(asOf: "3 08:00");

        Assert.Null(Stale(found));
    }

    [Theory]
    [InlineData(null, "breach")]
    [InlineData("10:00", "none")]
    [InlineData("2 09:00", "cleared")]
    [InlineData("2 11:00", "breach")] // more than 24 hours after
    public void AReasonLetsSalinePassOrEndsTheFindingWithinADay(string? reasonAt, string expected)
    {
        var chart = Chart().Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.SalineInstilled, Number(5, Unit.Millilitre)));
        if (reasonAt is not null)
        {
            chart.Row("r", Concepts.AllowanceReason, reasonAt, Answer("thick-secretions"));
        }

        var finding = chart.Judge().Findings.SingleOrDefault(one => one.Rule.Id == "saline-without-reason");

        Assert.Equal(expected, finding is null ? "none" : finding.State == FindingState.Cleared ? "cleared" : "breach");
    }

    [Fact]
    public void ThickSecretionsChartedWithThePassAreAReason() => Assert.DoesNotContain(
        Chart().Row("s", "10:00", null, null, null, null, null,
            (Concepts.SuctionPass, FactValue.Absent), (Concepts.SalineInstilled, FactValue.Yes), (Concepts.SecretionConsistency, Answer("thick"))).Judge().Findings,
        one => one.Rule.Id == "saline-without-reason");

    [Fact]
    public void ATubeWithoutDiameterIsFoundOnceItIsSuctionedAndEndsWhenItIsCharted()
    {
        var chart = Chart().Row("s", Concepts.SuctionPass, "10:00", FactValue.Absent);
        var open = chart.Judge().Findings.Single(one => one.Rule.Id == "tube-diameter-unknown");
        Assert.Equal((At("10:00"), FindingState.Open), (open.First.At, open.State));

        var cleared = chart.Row("d", Concepts.TubeInnerDiameter, "15:00", Number(8, Unit.Millimetre)).Judge().Findings.Single(one => one.Rule.Id == "tube-diameter-unknown");
        Assert.Equal((At("15:00"), FindingState.Cleared, open.Flag), (cleared.EndedAt, cleared.State, cleared.Flag));
    }

    // It waits two hours before it says that a diameter is missing: one charted meanwhile is not.
    [Theory]
    [InlineData("12:00", "none")]
    [InlineData("12:01", "cleared")]
    public void A_diameter_charted_while_it_was_waited_for_is_not_missing(string charted, string expected)
    {
        var finding = Chart().Row("s", Concepts.SuctionPass, "10:00", FactValue.Absent).Row("d", Concepts.TubeInnerDiameter, charted, Number(8, Unit.Millimetre))
            .Judge().Findings.SingleOrDefault(one => one.Rule.Id == "tube-diameter-unknown");

        Assert.Equal(expected, finding is null ? "none" : finding.State == FindingState.Cleared ? "cleared" : "open");
    }

    // The twelve hours were over by then: the pass itself makes it due, at once.
    [Fact]
    public void A_pass_after_the_hours_are_over_makes_a_reading_due_at_its_own_instant()
    {
        var chart = Chart().Row("v", Concepts.VacuumPressure, "08:00", Number(100, Unit.MmHg)).Row("s", Concepts.SuctionPass, "21:00", FactValue.Absent);

        Assert.Equal(At("21:00"), Stale(chart.Judge(asOf: "21:00"))!.First.At);
    }

    // The event is the instant at which it falls due, not the one from which the time runs.
    [Fact]
    public void What_falls_due_on_a_birthday_is_of_the_new_age()
    {
        var found = new ChartBuilder().Born(2008, 3, 2).Encounter("e", "06:00").Row("a", Concepts.AirwayType, "07:00", Answer("tracheal-tube"))
            .Row("v", Concepts.VacuumPressure, "14:00", Number(100, Unit.MmHg)).Row("s", Concepts.SuctionPass, "18:00", FactValue.Absent).Judge();

        Assert.Equal((At("2 02:00"), AgeBand.Adult), (Stale(found)!.First.At, Stale(found)!.Latest.Band));
    }

    private static DerivedFinding? Stale(DerivedFindings found) => found.Findings.SingleOrDefault(finding => finding.Rule.Id == "vacuum-reading-stale");

    private static ChartBuilder Suctioned() => Chart()
        .Row("v", Concepts.VacuumPressure, "08:00", Number(100, Unit.MmHg))
        .Row("s", Concepts.SuctionPass, "18:00", FactValue.Absent);

    private static ChartBuilder Chart() => new ChartBuilder().Born(1961, 4, 5).Encounter("e", "06:00")
        .Row("a", Concepts.AirwayType, "07:00", Answer("tracheal-tube"));
}
