using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Estimates;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Tests.Judging;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Estimates;

/// <summary>Which findings carry an estimate: those of an open pass of which vacuum, catheter and tube are known beyond doubt.</summary>
public sealed class PassEstimatesTests
{
    private const string Ceiling = "vacuum-above-ceiling", Wide = "catheter-too-wide", NoFit = "catheter-does-not-fit";

    private static readonly (Concept, FactValue) Open = (Concepts.SuctionSystem, Answer("open")), Closed = (Concepts.SuctionSystem, Answer("closed")),
        Fr14 = (Concepts.CatheterSize, Number(14, Unit.French)), Vacuum220 = (Concepts.VacuumPressure, Number(220, Unit.MmHg)),
        Occluded = (Concepts.VacuumReadingMethod, Answer("occluded"));

    [Fact]
    public void A_vacuum_over_the_ceiling_tells_what_it_may_have_meant_in_the_trachea()
    {
        var found = Tube(7).Pass("s", "10:00", Open, Fr14, Vacuum220, Occluded).Judge();
        var finding = found.Only(Ceiling);

        Assert.Equal(
            "Rough bench estimate, no limit: 220 mmHg through 14 Fr in 7 mm, open, may bring the trachea about 4 cmH2O, between 2 and 7, below atmosphere in a clean tube off the ventilator (Nakstad 2017, Kiraly 2008).",
            Wording.Estimate(finding.Latest.Estimate!));
        Assert.Equal(finding.Latest.Estimate, found.Only(Wide).Latest.Estimate);
        Assert.All(found.Findings.Where(one => one.Rule.Id is not (Ceiling or Wide)), one => Assert.Null(one.Latest.Estimate));
    }

    [Fact]
    public void One_that_no_bench_could_tell_from_nothing_is_told_as_less_than_half_a_centimetre()
    {
        var found = Tube(9).Row("i", Concepts.IntracranialPressureMonitored, "08:30", FactValue.Yes).Pass("s", "10:00", Open, (Concepts.CatheterSize, Number(12, Unit.French)), (Concepts.VacuumPressure, Number(121, Unit.MmHg)))
            .Judge().Only(Ceiling);

        Assert.Contains("may bring the trachea less than 0.5 cmH2O below atmosphere", Wording.Estimate(found.Latest.Estimate!), StringComparison.Ordinal);
    }

    [Fact]
    public void A_finding_of_the_catheter_takes_the_reading_that_checked_the_vacuum_before_the_pass()
    {
        var chart = Tube(7).Row("v", Concepts.VacuumPressure, "09:50", Number(120, Unit.MmHg)).Pass("s", "10:00", Open, Fr14);
        Assert.Equal(2m, chart.Judge().Only(Wide).Latest.Estimate!.About);

        var old = Tube(7).Row("v", Concepts.VacuumPressure, "09:44", Number(120, Unit.MmHg)).Pass("s", "10:00", Open, Fr14);
        Assert.Null(old.Judge().Only(Wide).Latest.Estimate);
    }

    [Fact]
    public void Open_charted_with_one_pass_holds_for_the_others_of_its_session()
    {
        var chart = Tube(7).Pass("s", "10:00", Open, Fr14).Pass("u", "10:02", Fr14, Vacuum220);

        Assert.NotNull(chart.Judge().Only(Ceiling).Latest.Estimate);
    }

    [Fact]
    public void A_reading_that_belongs_to_no_pass_has_none() =>
        Assert.Null(Tube(7).Pass("s", "10:00", Open, Fr14).Row("v", Concepts.VacuumPressure, "09:50", Number(220, Unit.MmHg)).Judge().Only(Ceiling).Latest.Estimate);

    [Fact]
    public void A_catheter_that_does_not_fit_has_none() =>
        Assert.Null(Tube(5).Pass("s", "10:00", Open, (Concepts.CatheterSize, Number(15, Unit.French)), Vacuum220).Judge().Only(NoFit).Latest.Estimate);

    public static TheoryData<string> Doubts => [.. Charts.Keys];

    [Theory]
    [MemberData(nameof(Doubts))]
    public void What_is_missing_or_in_doubt_gives_none(string doubt)
    {
        var findings = Charts[doubt]().Judge().Findings.Where(one => one.Rule.Id is Ceiling or Wide).ToArray();

        Assert.NotEmpty(findings);
        Assert.All(findings, one => Assert.All(one.Occurrences, occurrence => Assert.Null(occurrence.Estimate)));
    }

    private static readonly Dictionary<string, Func<ChartBuilder>> Charts = new(StringComparer.Ordinal)
    {
        ["closed"] = () => Tube(7).Pass("s", "10:00", Closed, Fr14, Vacuum220),
        ["nobody says open or closed"] = () => Tube(7).Pass("s", "10:00", Fr14, Vacuum220),
        ["open and closed"] = () => Tube(7).Pass("s", "10:00", Open, Closed, Fr14, Vacuum220),
        ["ventilator not disconnected"] = () => Tube(7).Pass("s", "10:00", Open, (Concepts.VentilatorDisconnected, FactValue.No), Fr14, Vacuum220),
        ["read flowing"] = () => Tube(7).Pass("s", "10:00", Open, Fr14, Vacuum220, (Concepts.VacuumReadingMethod, Answer("flowing"))),
        ["method unknown"] = () => Tube(7).Pass("s", "10:00", Open, Fr14, Vacuum220, (Concepts.VacuumReadingMethod, Answer("unknown"))),
        ["no unit"] = () => Tube(7).Pass("s", "10:00", Open, Fr14, (Concepts.VacuumPressure, Number(600, Unit.None))),
        ["a bound"] = () => Tube(7).Pass("s", "10:00", Open, Fr14, (Concepts.VacuumPressure, Number(220, Unit.MmHg, Comparator.Above))),
        ["two readings"] = () => Tube(7).Pass("s", "10:00", Open, Fr14, Vacuum220, (Concepts.VacuumPressure, Number(160, Unit.MmHg))),
        ["a second reading without a unit"] = () => Tube(7).Pass("s", "10:00", Open, Fr14, Vacuum220, (Concepts.VacuumPressure, Number(220, Unit.None))),
        ["full line"] = () => Tube(7).Pass("s", "10:00", Open, Fr14, Vacuum220, (Concepts.RegulatorMode, Answer("full-line"))),
        ["intermittent"] = () => Tube(7).Pass("s", "10:00", Open, Fr14, Vacuum220, (Concepts.RegulatorMode, Answer("intermittent"))),
        ["no vacuum"] = () => Tube(7).Pass("s", "10:00", Open, Fr14),
        ["own vacuum unread behind an earlier one"] = () => Tube(7).Row("v", Concepts.VacuumPressure, "09:50", Number(120, Unit.MmHg))
            .Pass("s", "10:00", Open, Fr14, (Concepts.VacuumPressure, FactValue.Unreadable)),
        ["no catheter"] = () => Tube(7).Pass("s", "10:00", Open, Vacuum220),
        ["a catheter as a bound"] = () => Tube(7).Pass("s", "10:00", Open, Vacuum220, (Concepts.CatheterSize, Number(14, Unit.French, Comparator.AtLeast))),
        ["two catheters"] = () => Tube(7).Pass("s", "10:00", Open, Vacuum220, Fr14, (Concepts.CatheterSize, Number(12, Unit.French))),
        ["no tube"] = () => CheckWords.Adult().Pass("s", "10:00", Open, Fr14, Vacuum220),
        ["tube without a diameter"] = () => CheckWords.Adult().Row("t", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Pass("s", "10:00", Open, Fr14, Vacuum220),
        ["inner cannula of unknown bore"] = () => Tube(7).Row("c", Concepts.InnerCannulaInPlace, "08:30", FactValue.Yes).Pass("s", "10:00", Open, Fr14, Vacuum220),
        ["tube smaller than the benches had"] = () => Tube(6.5m).Pass("s", "10:00", Open, Fr14, Vacuum220),
        ["catheter thinner than the benches had"] = () => Tube(7).Pass("s", "10:00", Open, (Concepts.CatheterSize, Number(10, Unit.French)), Vacuum220),
        ["vacuum weaker than the benches had"] = () => Tube(7).Pass("s", "10:00", Open, Fr14, (Concepts.VacuumPressure, Number(79, Unit.MmHg))),
        ["vacuum deeper than the benches had"] = () => Tube(7).Pass("s", "10:00", Open, Fr14, (Concepts.VacuumPressure, Number(600, Unit.MmHg))),
    };

    private static ChartBuilder Tube(decimal millimetres) =>
        CheckWords.Adult().Row("t", "08:00", null, null, null, null, null, (Concepts.AirwayType, Answer("tracheal-tube")), (Concepts.TubeInnerDiameter, Number(millimetres, Unit.Millimetre)));
}
