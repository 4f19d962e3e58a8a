using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Traps of charting that the checks on passes and oxygen have to step around.</summary>
public sealed class OxygenTrapsTests
{
    // Feeds print 0.3 with unit % and 30 with unit 1.
    [Theory]
    [InlineData(0.3, Unit.One)]
    [InlineData(30, Unit.None)]
    [InlineData(30, Unit.Percent)]
    [InlineData(0.3, Unit.Percent)]
    [InlineData(30, Unit.One)]
    [InlineData(0.3, Unit.None)]
    public void Thirty_per_cent_is_thirty_per_cent_however_it_is_written(double charted, Unit unit)
    {
        Assert.Equal("breach 0.15", Neonate().Oxygen("09:00", (decimal)charted, unit).Oxygen("09:59", 45).Pass("s", "10:00").SaidByBoth("neonate-over-oxygenated"));
        Assert.Equal("", Neonate().Oxygen("09:00", 30).Oxygen("09:59", (decimal)charted, unit).Pass("s", "10:00").SaidByBoth("neonate-over-oxygenated"));
        Assert.Equal("", Neonate().Oxygen("09:00", 30).Pass("s", "10:00").Oxygen("10:15", (decimal)charted, unit).SaidByBoth("oxygen-not-returned"));
    }

    [Fact]
    public void Three_passes_of_eight_seconds_are_no_pass_of_twenty_four()
    {
        var found = Adult().Pass("a", "10:00", (Concepts.PassDuration, Number(8, Unit.Second))).Pass("b", "10:02", (Concepts.PassDuration, Number(8, Unit.Second)))
            .Pass("c", "10:04", (Concepts.PassDuration, Number(8, Unit.Second)));

        Assert.Equal("", found.SaidByBoth("pass-too-long"));
    }

    [Fact]
    public void Saline_of_two_passes_is_not_added_up() => Assert.Equal("", Neonate().Row("w", Concepts.BodyWeight, "08:00", Number(2, Unit.Kilogram))
        .Pass("a", "10:00", (Concepts.SalineInstilled, Number(0.3m, Unit.Millilitre))).Pass("b", "10:03", (Concepts.SalineInstilled, Number(0.3m, Unit.Millilitre)))
        .SaidByBoth("saline-dose-high"));

    [Fact]
    public void Two_passes_in_one_minute_are_two()
    {
        var four = Adult().Pass("a", "10:00").Pass("b", "10:00").Pass("c", "10:01").Pass("d", "10:01");
        Assert.Equal("breach 4", four.SaidByBoth("too-many-passes"));

        // Charted to the minute nobody says how long the rest was; to the second it is judged.
        Assert.Equal("", four.SaidByBoth("rest-between-passes-short"));
        Assert.Equal("breach 23", Adult().Procedure("p", "10:00:00", "10:00:12").Procedure("q", "10:00:35", "10:00:47").SaidByBoth("rest-between-passes-short"));
    }

    [Theory]
    [InlineData(45, 3, "")] // 15 s each if alike, yet nobody can tell: the duration check leaves it open
    [InlineData(48, 3, "breach 16")]
    public void A_count_beside_one_duration_divides_it_and_is_the_sessions_count_too(int seconds, int passes, string expected)
    {
        var chart = Adult().Pass("s", "10:00", (Concepts.PassDuration, Number(seconds, Unit.Second)), (Concepts.PassCount, Number(passes, Unit.Count)));

        Assert.Equal(expected.Length > 0 ? expected : "open DurationOfEachPass", chart.SaidByBoth("pass-too-long"));
        Assert.Equal("", chart.SaidByBoth("too-many-passes"));
    }

    [Fact]
    public void Good_preoxygenation_is_no_high_oxygen_before_suction()
    {
        (Concept, FactValue) open = (Concepts.SuctionSystem, Answer("open"));
        var chart = Adult().Row("p", Concepts.Peep, "09:00", Number(5, Unit.CmH2O)).Oxygen("09:00", 40);

        // Charted as oxygen just before the first pass, or as pre-oxygenation much earlier.
        Assert.Equal("", chart.Oxygen("09:59", 100).Pass("s1", "10:00", open).Pass("s2", "10:04").Pass("s3", "10:08").SaidByBoth("open-suction-where-closed-advised"));
        Assert.Equal("", Adult().Row("p", Concepts.Peep, "09:00", Number(5, Unit.CmH2O)).Oxygen("09:00", 40).Oxygen("09:50", 100)
            .Row("o", Concepts.Preoxygenation, "09:49", FactValue.Yes, "09:52").Pass("s1", "10:00", open).SaidByBoth("open-suction-where-closed-advised"));
    }

    [Fact]
    public void Preoxygenation_of_the_next_session_is_no_oxygen_left_up_after_this_one() => Assert.Equal("", Adult()
        .Oxygen("09:00", 40).Pass("s1", "10:00").Oxygen("10:12", 40).Oxygen("10:59", 100).Pass("s2", "11:00").Oxygen("11:12", 40).SaidByBoth("oxygen-not-returned"));

    // §2: "pre-oxygenation and oxygen checks are cannot-tell without an age in any case".
    [Theory]
    [InlineData(UnknownAge.CannotTell)]
    [InlineData(UnknownAge.StrictestBand)]
    public void Without_an_age_the_oxygen_checks_cannot_tell_under_either_setting(UnknownAge setting)
    {
        var chart = new ChartBuilder().Oxygen("09:00", 30).Oxygen("09:59", 60).Pass("s", "10:00", (Concepts.PreoxygenationDuration, Number(10, Unit.Second))).Oxygen("10:30", 60);

        foreach (var check in (string[])["preoxygenation-missing", "preoxygenation-short", "neonate-over-oxygenated", "oxygen-not-returned"])
        {
            Assert.Equal("open BirthDate", chart.SaidByBoth(check, setting));
        }
    }

    [Fact]
    public void A_column_charted_forty_minutes_late_is_waited_for_and_judged_at_its_own_time()
    {
        var chart = Adult().Oxygen("09:00", 40).Row("s", Concepts.SuctionPass, "10:00", FactValue.Absent, group: "c1").Then();
        var early = chart.Judge(asOf: "10:30");
        Assert.Equal("", early.Said("preoxygenation-missing") + early.Said("oxygen-not-returned"));

        // Entered at 10:40, for 10:00.
        chart.Row("o", Concepts.Preoxygenation, "10:00", FactValue.Yes, group: "c1").Row("d", Concepts.PassDuration, "10:00", Number(25, Unit.Second), group: "c1").Then();
        var late = chart.Judge(asOf: "12:30");
        Assert.Equal("", late.Said("preoxygenation-missing"));
        Assert.Equal(At("10:00"), late.Only("pass-too-long").First.At);
    }

    [Fact]
    public void A_procedure_that_arrives_after_its_rows_leaves_the_findings_key_as_it_was()
    {
        var chart = Adult().Row("l", Concepts.LungInjury, "08:00", FactValue.Yes).Row("d", Concepts.VentilatorDisconnected, "10:00", FactValue.Yes);
        var before = chart.Judge().Only("disconnected-in-lung-injury").First;

        var after = chart.Procedure("p", "10:00:00", "10:00:12").Judge().Only("disconnected-in-lung-injury").First;

        Assert.Equal((before.Key, before.Subject), (after.Key, after.Subject));
        Assert.NotEqual(before.Anchors.Single().Row, after.Anchors.Single().Row);
    }

    // Recommendations for head-injured adults, J Neurosci Nurs 1993: one or two passes.
    [Theory]
    [InlineData(true, 2, "")]
    [InlineData(true, 3, "breach 3")]
    [InlineData(false, 3, "")]
    [InlineData(null, 3, "")]
    public void Monitored_intracranial_pressure_tightens_the_passes_of_a_session(bool? monitored, int passes, string expected)
    {
        var chart = Adult().Row("i0", Concepts.IntracranialPressureMonitored, "07:00", monitored is null ? FactValue.No : FactValue.Yes);
        if (monitored == false)
        {
            chart.Row("i", Concepts.IntracranialPressureMonitored, "09:00", FactValue.No);
        }

        for (var i = 0; i < passes; i++)
        {
            chart.Pass("s" + i, $"10:0{i}");
        }

        Assert.Equal(expected, chart.SaidByBoth("too-many-passes"));
    }
}
