using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>vacuum-above-ceiling and what surrounds it: units, doubt, methods, modes, spells.</summary>
public sealed class VacuumAboveCeilingTests
{
    private const string Check = "vacuum-above-ceiling";

    // Ceilings: adult 150 NSW ACI 2014, neonate 80 Ireton 2007, infant 100 AARC 2004, child 120 (NTSP, from memory); 120 and 200 AARC 2022.
    [Theory]
    [InlineData("strict-ranges", 1961, 150, "mm[Hg]", false)]
    [InlineData("strict-ranges", 1961, 150.4, "mm[Hg]", true)]
    [InlineData("strict-ranges", 1961, 20, "kPa", false)] // 150.013 mm[Hg]: conversion noise
    [InlineData("strict-ranges", 1961, 20.1, "kPa", true)]
    [InlineData("strict-ranges", 1961, -220, "mm[Hg]", true)]
    [InlineData("strict-ranges", 2018, 16, "kPa", false)] // 120.010 mm[Hg] is not above 120
    [InlineData("guideline-2022", 2018, 16, "kPa", true)] // and not below 120
    [InlineData("guideline-2022", 1961, 199, "mm[Hg]", false)]
    [InlineData("guideline-2022", 1961, 200, "mm[Hg]", true)]
    [InlineData("strict-ranges", 1961, 15, "cm[Hg]", false)]
    [InlineData("strict-ranges", 1961, 6, "[in_i'Hg]", true)] // 152.4 mm[Hg]
    [InlineData("strict-ranges", 1961, 635, "mm[Hg]", true)] // common practice, no source: full wall vacuum can reach 635
    public void AReadingBreachesOnlyOverTheCeilingOfItsBand(string rules, int born, double amount, string unit, bool breaches)
    {
        var found = new ChartBuilder().Born(born, 5, 2)
            .Row("o1", Concepts.VacuumPressure, "10:00", Number((decimal)amount, Units.FromUcum(unit)))
            .Judge(rules);

        Assert.Equal(breaches, found.Findings.Any(finding => finding.Rule.Id == Check));
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == Check);
    }

    [Theory]
    [InlineData(20, "cm[H2O]")] // 14.7 mm[Hg]: a teaching page prints 20 cmH2O where 20 kPa is meant
    [InlineData(15, "mm[Hg]")]
    [InlineData(800, "mm[Hg]")] // more than an atmosphere
    [InlineData(120, "")]
    [InlineData(180, "")] // over as mmHg, not as cmH2O
    public void ADoubtfulUnitIsNamedAndNotJudgedAgainstTheCeiling(double amount, string unit)
    {
        var found = new ChartBuilder().Born(1961, 5, 2)
            .Row("o1", Concepts.VacuumPressure, "10:00", Number((decimal)amount, unit.Length == 0 ? Unit.None : Units.FromUcum(unit)))
            .Judge();

        Assert.Equal("vacuum-unit-doubtful", Assert.Single(found.Findings).Rule.Id);
        Assert.Single(Untold(found));
    }

    [Fact]
    public void ANumberWithoutUnitBreachesWhereItIsOverInEveryPossibleUnit()
    {
        var found = new ChartBuilder().Born(1961, 5, 2)
            .Row("o1", Concepts.VacuumPressure, "10:00", Number(500, Unit.None))
            .Judge();

        Assert.Equal(Check + " vacuum-unit-doubtful", string.Join(' ', found.Findings.Select(finding => finding.Rule.Id)));
    }

    [Fact]
    public void AUnitThatChangesFromTheRowsUsualOneIsDoubtful()
    {
        var found = new ChartBuilder().Born(1961, 5, 2)
            .Row("o1", Concepts.VacuumPressure, "08:00", Number(16, Unit.Kilopascal))
            .Row("o2", Concepts.VacuumPressure, "10:00", Number(30, Unit.MmHg)) // 30 kPa lies in 40 to 700 mm[Hg], 30 mm[Hg] does not
            .Judge();

        var doubtful = Assert.Single(found.Findings);
        Assert.Equal("vacuum-unit-doubtful", doubtful.Rule.Id);
    }

    [Fact]
    public void FlowingReadingsNeverClearAndOccludedOnesDo()
    {
        var chart = new ChartBuilder().Born(1961, 5, 2)
            .Row("o1", "10:00", null, null, null, null, null, (Concepts.VacuumPressure, Number(250, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer("occluded")))
            .Row("o2", "10:10", null, null, null, null, null, (Concepts.VacuumPressure, Number(100, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer("flowing")));

        var open = chart.Judge();
        Assert.Equal(FindingState.Open, Assert.Single(Of(open)).State);
        Assert.Single(Untold(open));

        var cleared = chart
            .Row("o3", "10:20", null, null, null, null, null, (Concepts.VacuumPressure, Number(100, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer("occluded")))
            .Judge();
        Assert.Equal(FindingState.Cleared, Assert.Single(Of(cleared)).State);
        Assert.Equal(At("10:20"), Of(cleared)[0].EndedAt);
    }

    [Fact]
    public void AReadingWithoutMethodClearsOnlyWhereEveryBreachHadNone()
    {
        var chart = new ChartBuilder().Born(1961, 5, 2)
            .Row("o1", Concepts.VacuumPressure, "10:00", Number(250, Unit.MmHg))
            .Row("o2", Concepts.VacuumPressure, "10:20", Number(100, Unit.MmHg));
        Assert.Equal(FindingState.Cleared, Assert.Single(chart.Judge().Findings).State);

        var mixed = new ChartBuilder().Born(1961, 5, 2)
            .Row("o1", "10:00", null, null, null, null, null, (Concepts.VacuumPressure, Number(250, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer("occluded")))
            .Row("o2", Concepts.VacuumPressure, "10:20", Number(100, Unit.MmHg));
        Assert.Equal(FindingState.Open, Assert.Single(mixed.Judge().Findings).State);
    }

    [Fact]
    public void ASecondSpellHangsOnTheInstantThatClearedTheFirst()
    {
        var found = new ChartBuilder().Born(1961, 5, 2)
            .Row("o1", Concepts.VacuumPressure, "10:00", Number(250, Unit.MmHg))
            .Row("o2", Concepts.VacuumPressure, "10:20", Number(100, Unit.MmHg))
            .Row("o3", Concepts.VacuumPressure, "11:00", Number(240, Unit.MmHg))
            .Row("o4", Concepts.VacuumPressure, "11:05", Number(245, Unit.MmHg))
            .Judge();

        Assert.Equal([FindingState.Cleared, FindingState.Open], found.Findings.Select(finding => finding.State));
        Assert.Equal("start 2026-03-01T10:20:00.000Z", string.Join(' ', found.Findings.Select(finding => finding.Anchor)));
        Assert.Equal(2, found.Findings[1].Occurrences.Length);
        Assert.Equal(FindingKeys.Flag(Check, "Patient/p1", "2026-03-01T10:20:00.000Z"), found.Findings[1].Flag);
    }

    [Theory]
    [InlineData("full-line", 0, false, false)]
    [InlineData("off", 0, false, false)]
    [InlineData(null, 0, false, true)]
    [InlineData("full-line", 300, true, false)]
    [InlineData("full-line", 100, false, false)]
    public void ZeroAndFullLineAreNotReadAsPressures(string? mode, int amount, bool withheld, bool cannotTell)
    {
        var chart = new ChartBuilder().Born(1961, 5, 2);
        chart = mode is null ? chart : chart.Row("m1", Concepts.RegulatorMode, "10:00", Answer(mode));
        var found = chart.Row("o1", Concepts.VacuumPressure, "10:00", Number(amount, Unit.MmHg)).Judge();

        var vacuum = found.Findings.Where(finding => finding.Rule.Id == Check).ToArray();
        Assert.Equal(withheld ? 1 : 0, vacuum.Length);
        Assert.All(vacuum, finding => Assert.True(finding.IsWithheld));
        Assert.Equal(cannotTell, found.CannotTell.Any(one => one.Rule.Id == Check));
        Assert.Equal(mode == "full-line", found.Findings.Any(finding => finding.Rule.Id == "regulator-on-full-line"));
    }

    [Theory]
    [InlineData("gastric", 0)]
    [InlineData("airway", 1)]
    public void OnlyAirwaySuctionIsJudged(string use, int findings)
    {
        var found = new ChartBuilder().Born(1961, 5, 2)
            .Row("o1", "10:00", null, null, null, null, null, (Concepts.VacuumPressure, Number(300, Unit.MmHg)), (Concepts.SuctionUse, Answer(use)))
            .Judge();

        Assert.Equal(findings, found.Findings.Length);
        Assert.Empty(Untold(found));
    }

    // Head-injured adults below 120: J Neurosci Nurs 1993;25(2):86-91.
    [Fact]
    public void MonitoredIntracranialPressureTightensAndNeverLoosens()
    {
        var adult = new ChartBuilder().Born(1961, 5, 2)
            .Row("i1", Concepts.IntracranialPressureMonitored, "09:00", FactValue.Yes)
            .Row("o1", Concepts.VacuumPressure, "10:00", Number(130, Unit.MmHg))
            .Judge();
        Assert.Equal(120m, Assert.Single(adult.Findings).Latest.Limit.Low);

        var neonate = new ChartBuilder().Born(2026, 2, 20)
            .Row("i1", Concepts.IntracranialPressureMonitored, "09:00", FactValue.Yes)
            .Row("o1", Concepts.VacuumPressure, "10:00", Number(90, Unit.MmHg))
            .Judge();
        Assert.Equal(80m, Assert.Single(neonate.Findings).Latest.Limit.Low);
    }

    [Theory]
    [InlineData(Comparator.Below, 150, false, false)]
    [InlineData(Comparator.Below, 200, false, true)]
    [InlineData(Comparator.Above, 150, true, false)]
    [InlineData(Comparator.AtLeast, 150, true, false)]
    [InlineData(Comparator.Above, 100, false, true)]
    public void AComparatorThatLeavesItOpenCannotTell(Comparator comparator, int amount, bool breaches, bool cannotTell)
    {
        var found = new ChartBuilder().Born(1961, 5, 2)
            .Row("o1", Concepts.VacuumPressure, "10:00", Number(amount, Unit.MmHg, comparator))
            .Judge();

        Assert.Equal(breaches, found.Findings.Length == 1);
        Assert.Equal(cannotTell, Untold(found).Length == 1);
    }

    [Fact]
    public void WithoutAnAgeNothingIsAssumed()
    {
        var chart = new ChartBuilder().Row("o1", Concepts.VacuumPressure, "10:00", Number(90, Unit.MmHg));

        Assert.Equal([Measures.Missing.BirthDate], Assert.Single(Untold(chart.Judge())).Missing);
        Assert.Equal(80m, Assert.Single(chart.Judge(unknownAge: Core.Judging.UnknownAge.StrictestBand).Findings).Latest.Limit.Low);
    }

    [Fact]
    public void ADevicesReadingIsAirwaySuctionOnlyWhereAPassNamesTheDevice()
    {
        ChartBuilder Chart() => new ChartBuilder().Born(1961, 5, 2)
            .Device("reg", "vacuum-regulator").InUse("u1", "reg", "08:00")
            .Row("o1", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg), about: "reg");

        Assert.Equal([Measures.Missing.SuctionUse], Chart().Judge().CannotTell.Single(one => one.Rule.Id == Check).Missing);

        var named = Chart().Procedure("sx", "10:00:30", "10:00:40", uses: ["reg"]).Judge();
        var finding = named.Findings.Single(one => one.Rule.Id == Check);
        Assert.Equal("Device/reg", finding.Line);
    }

    [Fact]
    public void ARowTakenBackEqualsOneNeverCharted()
    {
        var found = new ChartBuilder().Born(1961, 5, 2)
            .Row("o1", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg))
            .TakeBack("o1")
            .Judge();

        Assert.Empty(found.Findings);
        Assert.Empty(found.CannotTell);
    }

    private static DerivedFinding[] Of(DerivedFindings found) => [.. found.Findings.Where(finding => finding.Rule.Id == Check)];

    private static DerivedCannotTell[] Untold(DerivedFindings found) => [.. found.CannotTell.Where(one => one.Rule.Id == Check)];
}
