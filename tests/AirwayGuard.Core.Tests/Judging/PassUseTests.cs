using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>A pass whose own row says what was suctioned: anything but the airway is kept and not judged, and where it cannot be read nobody can tell.</summary>
public sealed class PassUseTests
{
    private const string Wide = "catheter-too-wide", Indication = "no-indication-charted", Passes = "too-many-passes", Outcome = "outcome-not-charted";
    private const string Long = "pass-too-long", Vacuum = "vacuum-above-ceiling";

    [Theory]
    [InlineData("oral")]
    [InlineData("gastric")]
    [InlineData("chest-drain")]
    [InlineData("wound")]
    [InlineData("other")]
    public void A_pass_that_served_something_else_is_not_judged(string use)
    {
        var found = Tube().Pass("s", "10:00", Use(use), Catheter(14)).Judge();

        Assert.Empty(found.Findings);
        Assert.Empty(found.CannotTell);
    }

    [Fact]
    public void A_pass_of_the_airway_is_judged_whether_or_not_it_says_so()
    {
        Assert.Equal("breach 0.583", Tube().Pass("s", "10:00", Use("airway"), Catheter(14)).Judge().Said(Wide));
        Assert.Equal("breach 0.583", Tube().Pass("s", "10:00", Catheter(14)).Judge().Said(Wide));
    }

    [Fact]
    public void The_catheter_of_another_suction_is_not_the_one_in_use()
    {
        var chart = Tube().Pass("o", "09:00", Use("oral"), Catheter(14)).Pass("s", "10:00");

        Assert.Equal("open CatheterSize", chart.Judge().Said(Wide));
    }

    [Fact]
    public void Rows_beside_it_go_with_it()
    {
        var chart = Tube().Pass("o", "10:00", Use("oral"), (Concepts.VacuumPressure, Number(300, Unit.MmHg)))
            .Row("c", Concepts.CatheterSize, "10:00", Number(14, Unit.French)).Row("d", Concepts.PassDuration, "10:00", Number(40, Unit.Second));

        var found = chart.Judge();

        Assert.Empty(found.Findings);
        Assert.Empty(found.CannotTell);
    }

    // Contract §1: without a use a row counts as airway. Beside an oral pass that is doubtful, and to leave it out would hide a breach.
    [Fact]
    public void A_vacuum_or_a_mode_that_only_shares_its_time_is_open()
    {
        var oral = Tube().Pass("o", "10:00", Use("oral"));
        var reading = oral.Row("v", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg)).Judge();

        Assert.Empty(reading.Findings);
        Assert.Equal("open SuctionUse", reading.Said(Vacuum));
        Assert.Equal("open SuctionUse", Tube().Pass("o", "10:00", Use("oral")).Row("m", Concepts.RegulatorMode, "10:00", Answer("full-line")).Judge().Said("regulator-on-full-line"));
        Assert.Equal("", Tube().Pass("o", "10:00", Use("oral")).Row("v", "10:00", null, null, null, null, null, (Concepts.VacuumPressure, Number(300, Unit.MmHg)), Use("oral")).Judge().Said(Vacuum));
    }

    [Fact]
    public void Two_uses_at_the_instant_of_a_reading_leave_it_open()
    {
        var chart = Tube().Row("v", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg)).Row("a", Concepts.SuctionUse, "10:00", Answer("airway"))
            .Row("b", Concepts.SuctionUse, "10:00", Answer("gastric"));

        Assert.Equal("open SuctionUse", chart.Judge().Said(Vacuum));
    }

    [Fact]
    public void A_use_charted_beside_a_pass_of_the_airway_changes_nothing()
    {
        var chart = Tube().Pass("s", "10:00", Catheter(14)).Row("u", Concepts.SuctionUse, "10:00", Answer("oral"));

        Assert.Equal("breach 0.583", chart.Judge().Said(Wide));
    }

    [Fact]
    public void Of_two_passes_at_one_instant_the_airways_has_the_rows_that_say_nothing()
    {
        var chart = Tube().Pass("a", "10:00", Use("oral")).Pass("s", "10:00").Row("c", Concepts.CatheterSize, "10:00", Number(14, Unit.French));

        Assert.Equal("breach 0.583", chart.Judge().Said(Wide));
    }

    [Fact]
    public void A_row_that_only_a_pass_can_give_makes_none_where_it_served_something_else()
    {
        var oral = Tube().Row("d", "10:00", null, null, null, null, null, (Concepts.PassDuration, Number(40, Unit.Second)), Use("oral"));
        Assert.Empty(oral.Judge().Findings);

        var beside = oral.Pass("s", "10:00", (Concepts.PassDuration, Number(12, Unit.Second)));
        Assert.Equal("", beside.Judge().Said(Long));
        Assert.Equal("breach 40", Tube().Row("d", Concepts.PassDuration, "10:00", Number(40, Unit.Second)).Judge().Said(Long));
    }

    [Theory]
    [InlineData("airway", "breach 4")]
    [InlineData("oral", "")]
    [InlineData(null, "open PassUse")]
    public void It_counts_in_a_session_only_where_it_is_the_airways(string? use, string expected)
    {
        var chart = Tube().Pass("s1", "10:00").Pass("s2", "10:01").Pass("s3", "10:02").Pass("s4", "10:03", use is null ? Unread : Use(use));

        Assert.Equal(expected, chart.Judge().Said(Passes));
    }

    [Fact]
    public void What_it_brought_up_is_no_outcome_of_the_airways_session()
    {
        var secretions = (Concepts.SecretionAmount, Answer("copious"));
        Assert.Equal("breach missing", Tube().Pass("s", "10:00").Pass("o", "10:10", Use("oral"), secretions).Judge().Said(Outcome));
        Assert.Equal("", Tube().Pass("s", "10:00").Pass("o", "10:10", secretions).Judge().Said(Outcome));
    }

    [Fact]
    public void A_use_that_cannot_be_read_leaves_its_pass_open()
    {
        var found = Tube().Pass("s", "10:00", Unread, Catheter(14), (Concepts.PassDuration, Number(40, Unit.Second))).Judge();

        Assert.Empty(found.Findings);
        Assert.Equal("open PassUse", found.Said(Wide));
        Assert.Equal("open PassUse", found.Said(Long));
        Assert.Equal("open PassUse", found.Said(Indication));
        Assert.Equal("", found.Said("saline-without-reason"));
    }

    [Fact]
    public void A_pass_within_every_limit_is_no_pass_either_where_its_use_cannot_be_read() =>
        Assert.Equal("open PassUse", Tube().Pass("s", "10:00", Unread, Catheter(10)).Judge().Said(Wide));

    [Fact]
    public void Two_answers_of_one_row_that_contradict_each_other_are_as_one_that_cannot_be_read() =>
        Assert.Equal("open PassUse", Tube().Pass("s", "10:00", Use("airway"), Use("oral"), Catheter(14)).Judge().Said(Wide));

    [Fact]
    public void A_reading_whose_use_cannot_be_read_is_open_too()
    {
        Assert.Equal("open SuctionUse", Reading(Unread).Judge().Said(Vacuum));
        Assert.Equal("open SuctionUse", Reading(Use("airway"), Use("gastric")).Judge().Said(Vacuum));
        Assert.Equal("breach 300", Reading(Use("airway")).Judge().Said(Vacuum));
        Assert.Equal("open SuctionUse", Adult().Row("v", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg)).Row("u", Concepts.SuctionUse, "10:00", FactValue.Unreadable).Judge().Said(Vacuum));
    }

    [Fact]
    public void A_device_whose_use_cannot_be_read_leaves_its_readings_open()
    {
        var chart = Adult().Device("reg", "vacuum-regulator", (Concepts.SuctionUse, FactValue.Unreadable)).InUse("u", "reg", "07:00")
            .Row("v", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg), device: "reg");

        Assert.Equal("open SuctionUse", chart.Judge().Said(Vacuum));
    }

    [Fact]
    public void An_order_whose_use_cannot_be_read_is_open_and_told_as_not_read()
    {
        var found = Adult().Order("o", "08:00", "active", (Concepts.OrderVacuumHigh, Number(300, Unit.MmHg)), Unread).Judge();

        Assert.Equal("open OrderUse", found.Said("ordered-vacuum-above-ceiling"));
        Assert.Single(found.Findings, one => one.Rule.Id == "order-not-machine-readable");
    }

    [Theory]
    [InlineData("oral", "open PassUse")]
    [InlineData("airway", "breach 25")]
    [InlineData(null, "open PassUse")]
    public void Where_a_part_of_a_Procedure_says_something_else_than_its_code_nobody_can_tell(string? use, string expected)
    {
        var chart = Tube().Procedure("p", "10:00").Row(
            "r", "10:02", null, null, null, "p", null,
            (Concepts.SuctionPass, FactValue.Absent), use is null ? Unread : Use(use), (Concepts.PassDuration, Number(25, Unit.Second)));

        Assert.Equal(expected, chart.Judge().Said(Long));
    }

    [Fact]
    public void A_row_of_another_suction_at_the_time_of_a_Procedure_is_no_part_of_it()
    {
        var chart = Tube().Procedure("p", "10:00", "10:05").Row(
            "r", "10:02", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), Use("oral"), Catheter(14));

        Assert.DoesNotContain("PassUse", chart.Judge().Said(Wide), StringComparison.Ordinal);
        Assert.DoesNotContain("breach", chart.Judge().Said(Wide), StringComparison.Ordinal);
    }

    // 14 Fr is 4.67 mm: 0.583 of 8 mm.
    [Theory]
    [InlineData("07:00", null, null, "breach 0.583")]
    [InlineData("07:00", "09:30", null, "open CatheterSize")] // taken off before the pass
    [InlineData("10:30", null, null, "open CatheterSize")] // put on after it
    [InlineData("07:00", null, "open", "open CatheterSize")] // another was used
    [InlineData("07:00", null, "closed", "breach 0.583")]
    public void A_closed_catheter_on_record_is_the_one_in_use(string from, string? to, string? system, string expected)
    {
        var chart = Tube().Device("c", "closed-suction-catheter", Catheter(14)).InUse("u", "c", from, to);
        chart = system is null ? chart.Pass("s", "10:00") : chart.Pass("s", "10:00", (Concepts.SuctionSystem, Answer(system)));

        Assert.Equal(expected, chart.Judge().Said(Wide));
    }

    [Fact]
    public void A_size_charted_since_goes_before_a_closed_catheters() =>
        Assert.Equal("", Tube().Device("c", "closed-suction-catheter", Catheter(14)).InUse("u", "c", "07:00").Row("r", Concepts.CatheterSize, "09:00", Number(10, Unit.French)).Pass("s", "10:00").Judge().Said(Wide));

    private static (Concept, FactValue) Unread => (Concepts.SuctionUse, FactValue.Unreadable);

    private static (Concept, FactValue) Use(string use) => (Concepts.SuctionUse, Answer(use));

    private static (Concept, FactValue) Catheter(int french) => (Concepts.CatheterSize, Number(french, Unit.French));

    private static ChartBuilder Tube() => Adult().Row("k", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre));

    private static ChartBuilder Reading(params (Concept, FactValue)[] with) =>
        Adult().Row("v", "10:00", null, null, null, null, null, [(Concepts.VacuumPressure, Number(300, Unit.MmHg)), .. with]);
}
