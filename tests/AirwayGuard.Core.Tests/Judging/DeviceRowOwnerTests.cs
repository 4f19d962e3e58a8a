using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>A row about a device counts for one patient at the most: who is tied to the device at its time; else nobody can tell.</summary>
public sealed class DeviceRowOwnerTests
{
    private const string Vacuum = "vacuum-above-ceiling", NotChecked = "vacuum-not-checked-before-pass";

    [Fact]
    public void Between_the_passes_of_two_patients_it_is_of_the_one_whose_pass_named_the_device_last()
    {
        var chart = Regulator().Procedure("a", "10:00", uses: ["reg"]).Patients("p2").Born(1961, 4, 5).Procedure("b", "10:40", uses: ["reg"]);

        Assert.Equal("breach 160", Said(chart, "10:05", "p1"));
        Assert.Equal("", Said(chart, "10:05", "p2"));
        Assert.Equal("", Said(chart, "10:45", "p1"));
        Assert.Equal("breach 160", Said(chart, "10:45", "p2"));
    }

    // The regulator was read, of whichever patient it was then: that no vacuum was checked cannot be said.
    [Fact]
    public void Shortly_before_the_pass_of_another_it_leaves_that_ones_check_open()
    {
        var chart = Regulator().Procedure("a", "10:00", uses: ["reg"]).Patients("p2").Born(1961, 4, 5).Procedure("b", "10:10", uses: ["reg"]);
        Read(chart, "10:05");

        Assert.Equal("open Patient", chart.Judge().Said(NotChecked));
        Assert.Equal("open Patient", chart.Judge().Said(Vacuum));
        Assert.Equal("breach 160", chart.Patients("p1").Judge().Said(Vacuum));
    }

    [Fact]
    public void Two_patients_whose_passes_name_it_at_one_instant_leave_it_open()
    {
        var chart = Regulator().Procedure("a", "10:00", uses: ["reg"]).Patients("p2").Born(1961, 4, 5).Procedure("b", "10:00", uses: ["reg"]);

        Assert.Equal("open Patient", Said(chart, "10:05", "p1"));
        Assert.Equal("open Patient", Said(chart, "10:05", "p2"));
    }

    [Fact]
    public void After_the_stay_of_who_used_it_last_nobody_can_tell()
    {
        var chart = Adult().Device("reg", "vacuum-regulator").Encounter("e", "07:00", "12:00")
            .Row("s", "10:00", null, "reg", null, null, null, (Concepts.SuctionPass, FactValue.Absent));

        Assert.Equal("cleared 160", Said(chart, "11:59", "p1"));
        Assert.Equal("open Patient", Said(chart, "12:00", "p1"));
    }

    [Theory]
    [InlineData("2 10:00", "breach 160")]
    [InlineData("2 10:00:01", "open Patient")]
    [InlineData("09:55", "breach 160")]
    public void Where_no_stay_is_charted_a_pass_names_the_device_for_a_day(string at, string expected) =>
        Assert.Equal(expected, Said(Regulator().Procedure("a", "10:00", uses: ["reg"]), at, "p1"));

    [Fact]
    public void Within_the_stay_it_is_theirs_however_long_ago_the_pass_was()
    {
        var chart = Adult().Device("reg", "vacuum-regulator").Encounter("e", "07:00").Procedure("a", "10:00", uses: ["reg"]);

        Assert.Equal("breach 160", Said(chart, "9 10:00", "p1"));
    }

    [Fact]
    public void After_the_device_was_in_use_it_is_nobodys_and_before_another_pass_the_last_ones()
    {
        var chart = Regulator().InUse("u", "reg", "08:00", "10:30").Procedure("a", "10:00", uses: ["reg"]);

        Assert.Equal("breach 160", Said(chart, "10:29", "p1"));
        Assert.Equal("open Patient", Said(chart, "10:31", "p1"));
    }

    private static ChartBuilder Regulator() => Adult().Device("reg", "vacuum-regulator");

    private static ChartBuilder Read(ChartBuilder chart, string at) => chart.Row("v", Concepts.VacuumPressure, at, Number(160, Unit.MmHg), about: "reg");

    // The row is one and the same: charted again it stands at its new time.
    private static string Said(ChartBuilder chart, string at, string patient) => Read(chart.Then(), at).Patients(patient).Judge().Said(Vacuum);
}
