using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>An active order is held against the airway in use now; what was found against one before ended with that one.</summary>
public sealed class OrderAirwayTests
{
    private const string NoFit = "catheter-does-not-fit", Wide = "catheter-too-wide", Deep = "inserted-too-deep", Changed = "tube-changed-since-catheter-chosen", Unknown = "tube-diameter-unknown";

    [Fact]
    public void A_catheter_that_fitted_the_tube_before_is_held_against_the_one_in_use_now()
    {
        var found = Tube("07:00", 9.5m).Order("o", "08:00", "active", Catheter(14)).Tube("12:00", 4.5m).Judge();

        var one = found.Only(NoFit);
        Assert.Equal((FindingState.Open, At("08:00"), "Observation/tube-12:00"), (one.State, one.First.At, found.Only(NoFit).Line));
        Assert.Equal("breach yes", found.Said(Changed));
    }

    [Fact]
    public void What_was_found_against_the_tube_before_ended_with_it()
    {
        Assert.Equal("cleared 0.667", Tube("07:00", 7m).Order("o", "08:00", "active", Catheter(14)).Tube("12:00", 10m).Judge().Said(Wide));

        var found = Tube("07:00", 7m).Order("o", "08:00", "active", Catheter(14)).Tube("12:00", 8m).Tube("14:00", 8.5m).Judge();
        var findings = found.Findings.Where(one => one.Rule.Id == Wide).OrderBy(one => one.EndedAt == 0 ? long.MaxValue : one.EndedAt).ToArray();
        Assert.Equal([FindingState.Cleared, FindingState.Cleared, FindingState.Open], findings.Select(one => one.State));
        Assert.Equal([At("12:00"), At("14:00"), 0], findings.Select(one => one.EndedAt));
        Assert.Equal([true, true, false], findings.Select(one => one.Latest.IsSuperseded));
        Assert.Equal(3, findings.Select(one => one.Flag).Distinct().Count());
        Assert.Single(findings.Select(one => one.Latest.Key).Distinct());
    }

    [Fact]
    public void What_nobody_can_tell_is_asked_of_the_airway_in_use_alone()
    {
        Assert.Equal("", Kind("07:00").Order("o", "08:00", "active", Catheter(10)).Tube("12:00", 8m, "tracheostomy-tube").Judge().Said(Wide));
        var found = Adult().Tube("07:00", 8m, "tracheal-tube").Order("o", "08:00", "active", Catheter(10)).Row("k", Concepts.AirwayType, "12:00", Answer("tracheostomy-tube")).Judge();
        Assert.Equal("open TubeInnerDiameter", found.Said(Wide));
        Assert.Equal("breach missing", found.Said(Unknown));
    }

    [Fact]
    public void What_cannot_be_told_waits_from_when_the_airway_came_into_use()
    {
        var chart = Adult().Tube("07:00", 8m, "tracheal-tube").Order("o", "08:00", "active", Catheter(10)).Row("k", Concepts.AirwayType, "12:00", Answer("tracheostomy-tube"));

        Assert.Equal("", chart.Judge(asOf: "13:59").Said(Wide));
        Assert.Equal("open TubeInnerDiameter", chart.Judge(asOf: "14:01").Said(Wide));
    }

    [Fact]
    public void A_depth_is_held_against_the_tube_in_use_now_and_what_was_found_before_ended()
    {
        ChartBuilder Lengths(string at, decimal millimetres, decimal length, ChartBuilder chart) => chart.Tube(at, millimetres)
            .Row("l" + at, Concepts.TubeLength, at, Number(length, Unit.Centimetre)).Row("a" + at, Concepts.AdapterLength, at, Number(3m, Unit.Centimetre));
        (Concept, FactValue) depth = (Concepts.InsertionDepth, Number(18m, Unit.Centimetre));

        Assert.Equal("cleared 3", Lengths("12:00", 8m, 20m, Lengths("07:00", 7m, 12m, Adult()).Order("o", "08:00", "active", depth)).Judge().Said(Deep));
        Assert.Equal("breach 3", Lengths("12:00", 8m, 12m, Lengths("07:00", 7m, 20m, Adult()).Order("o", "08:00", "active", depth)).Judge().Said(Deep));
        Assert.Equal("breach 3", Lengths("12:00", 8m, 12m, Lengths("07:00", 7m, 10m, Adult()).Order("o", "08:00", "active", depth)).Judge().Said(Deep));
    }

    [Fact]
    public void A_catheter_named_by_its_equipment_is_as_old_as_that_request()
    {
        var found = Tube("07:00", 7m).Order("o", "08:00", "active").Tube("10:00", 8m).Equipment("d", "o", "11:00", Catheter(14)).Judge();

        Assert.Equal("breach 0.583", found.Said(Wide));
        Assert.Equal(At("08:00"), found.Only(Wide).First.At);
        Assert.Equal("", found.Said(Changed));
        Assert.Equal("breach yes", Tube("07:00", 7m).Order("o", "08:00", "active").Equipment("d", "o", "09:00", Catheter(14)).Tube("10:00", 8m).Judge().Said(Changed));
    }

    // Each of the two is said of its own airway.
    [Fact]
    public void That_it_does_not_fit_one_airway_withholds_nothing_of_another()
    {
        var found = Tube("07:00", 4m).Order("o", "08:00", "active", Catheter(14)).Tube("12:00", 8m).Judge();

        Assert.Equal([true, false], found.Findings.Where(one => one.Rule.Id == Wide).OrderBy(one => one.State == FindingState.Open).Select(one => one.IsWithheld));
    }

    // The same tube put in again goes on with its line: one spell, open while that tube is in use, and no pass of the time before ends it.
    [Fact]
    public void A_tube_that_is_put_in_again_has_one_spell_that_is_open_while_it_is_in_use()
    {
        ChartBuilder Used(string? until) => Adult().Device("t", "tracheal-tube", (Concepts.TubeInnerDiameter, Number(7m, Unit.Millimetre)))
            .InUse("u1", "t", "07:00", "10:00").Order("o", "08:00", "active", Catheter(14))
            .Pass("p", "09:00", (Concepts.CatheterSize, Number(8m, Unit.French))).InUse("u2", "t", "12:00", until);

        Assert.Equal("breach 0.667", Used(null).Judge().Said(Wide));
        Assert.Equal("cleared 0.667", Used("15:00").Judge().Said(Wide));
        Assert.Equal(At("15:00"), Used("15:00").Judge().Only(Wide).EndedAt);
    }

    private static ChartBuilder Tube(string at, decimal millimetres) => Adult().Tube(at, millimetres);

    private static ChartBuilder Kind(string at) => Adult().Row("k" + at, Concepts.AirwayType, at, Answer("tracheal-tube"));

    private static (Concept, FactValue) Catheter(int french) => (Concepts.CatheterSize, Number(french, Unit.French));
}

internal static class Tubes
{
    public static ChartBuilder Tube(this ChartBuilder chart, string at, decimal millimetres, string? kind = null) => kind is null
        ? chart.Row("tube-" + at, Concepts.TubeInnerDiameter, at, Number(millimetres, Unit.Millimetre))
        : chart.Row("tube-" + at, at, null, null, null, null, null, (Concepts.AirwayType, Answer(kind)), (Concepts.TubeInnerDiameter, Number(millimetres, Unit.Millimetre)));
}
