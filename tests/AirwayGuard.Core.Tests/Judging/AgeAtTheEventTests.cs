using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Whose limit an event is held to by its age. Catheters of 0.60 of the tube tell infant from child, vacuum the others.</summary>
public sealed class AgeAtTheEventTests
{
    private const string Wide = "catheter-too-wide", Vacuum = "vacuum-above-ceiling";

    // strict-ranges: neonate 80, infant 100.
    [Theory]
    [InlineData("1 09:00", AgeBand.Neonate)] // born 1 February: day 28
    [InlineData("2 09:00", null)] // day 29: an infant, whose 100 it keeps
    public void Day_28_is_a_neonates_and_day_29_an_infants(string at, AgeBand? band) => Assert.Equal(band, BandOf(new ChartBuilder().Born(2026, 2, 1), at, 90));

    // One instant, and two dates: on the ward's own one a patient born on 1 February is 29 days old.
    [Theory]
    [InlineData("1 23:30", AgeBand.Neonate)]
    [InlineData("2 00:30+01:00", null)]
    public void An_age_is_that_of_the_date_at_the_events_own_offset(string at, AgeBand? band) => Assert.Equal(band, BandOf(new ChartBuilder().Born(2026, 2, 1), at, 90));

    // strict-ranges: child 120, adult 150.
    [Theory]
    [InlineData("9 09:00", AgeBand.Child)]
    [InlineData("10 09:00", null)]
    public void The_18th_birthday_makes_an_adult(string at, AgeBand? band) => Assert.Equal(band, BandOf(new ChartBuilder().Born(2008, 3, 10), at, 140));

    [Theory]
    [InlineData("1 00:00", null)] // 1 March 2026, the 18th birthday of one born on 29 February 2008
    [InlineData("1 23:59", null)]
    public void Who_was_born_on_29_February_turns_18_on_1_March(string at, AgeBand? band)
    {
        Assert.Equal(band, BandOf(new ChartBuilder().Born(2008, 2, 29), at, 140));
        Assert.Equal(AgeBand.Child, Ages.BandOf(new DateOnly(2008, 2, 29), new DateOnly(2026, 2, 28), 0));
    }

    // Born on 1 December, 90 days before, at 28 weeks: 6 days past term.
    [Theory]
    [InlineData(28, AgeBand.Neonate)]
    [InlineData(36, null)] // 62 days past term
    [InlineData(37, null)] // not preterm
    [InlineData(0, null)] // not charted
    public void A_preterm_childs_age_is_counted_from_term(int weeks, AgeBand? band)
    {
        var chart = new ChartBuilder().Born(2025, 12, 1);
        _ = weeks == 0 ? chart : chart.Row("g", Concepts.GestationalAgeAtBirth, "00:10", Number(weeks, Unit.Week));

        Assert.Equal(band, BandOf(chart, "09:00", 90));
    }

    [Theory]
    [InlineData(2026, 2, AgeBand.Neonate, false)] // every day of February
    [InlineData(2026, 1, null, false)] // every day of January is an infant's
    [InlineData(2026, 0, null, true)] // both are possible
    public void A_partial_birth_date_is_used_where_every_day_of_it_gives_one_band(int year, int month, AgeBand? band, bool cannotTell)
    {
        var chart = new ChartBuilder().Born(year, month);

        Assert.Equal(band, BandOf(chart, "09:00", 90));
        Assert.Equal(cannotTell, chart.Judge().CannotTell.Any(one => one.Rule.Id == Vacuum && one.Missing is [Missing.BirthDate]));
    }

    [Fact]
    public void Among_the_bands_a_partial_birth_date_leaves_the_strictest_is_that_of_these_only()
    {
        // Born some time in 2026: neonate or infant, so 0.70 and never an adult's half.
        Assert.Empty(Catheter(new ChartBuilder().Born(2026), 12, 6m).Judge(unknownAge: UnknownAge.StrictestBand).Findings.Where(one => one.Rule.Id == Wide));
        Assert.Equal(0.70m, Catheter(new ChartBuilder().Born(2026), 14, 6m).Judge(unknownAge: UnknownAge.StrictestBand).Findings.Single(one => one.Rule.Id == Wide).Latest.Limit.Low);
    }

    [Theory]
    [InlineData("strict-ranges", 12, 8.0, false)] // one half under "at most one half"
    [InlineData("guideline-2022", 12, 8.0, true)]
    [InlineData("strict-ranges", 13, 8.0, true)]
    public void Without_an_age_a_catheter_cannot_be_told_or_is_held_to_the_strictest_band(string rules, int french, double millimetres, bool breaches)
    {
        var chart = Catheter(new ChartBuilder(), french, (decimal)millimetres);

        var told = chart.Judge(rules);
        Assert.Empty(told.Findings.Where(one => one.Rule.Id == Wide));
        Assert.Equal([Missing.BirthDate], told.CannotTell.Single(one => one.Rule.Id == Wide).Missing);
        var strictest = chart.Judge(rules, unknownAge: UnknownAge.StrictestBand);
        Assert.Equal(breaches ? [(AgeBand.Unknown, 0.50m)] : [], strictest.Findings.Where(one => one.Rule.Id == Wide).Select(one => (one.Latest.Band, one.Latest.Limit.Low)));
        Assert.DoesNotContain(strictest.CannotTell, one => one.Rule.Id == Wide);
    }

    [Theory]
    [InlineData("strict-ranges", 1961, 12, false)] // exactly one half
    [InlineData("strict-ranges", 2020, 12, false)]
    [InlineData("strict-ranges", 1961, 12.1, true)]
    [InlineData("guideline-2022", 1961, 12, true)]
    [InlineData("guideline-2022", 2020, 12, true)]
    [InlineData("guideline-2022", 1961, 11.9, false)]
    public void Exactly_one_half_is_within_an_inclusive_limit_and_over_a_strict_one(string rules, int born, double french, bool breaches) =>
        Assert.Equal(breaches, Catheter(new ChartBuilder().Born(born, 2, 20), (decimal)french, 8m).Judge(rules).Findings.Any(one => one.Rule.Id == Wide));

    private static AgeBand? BandOf(ChartBuilder chart, string at, int mmHg) => chart.Row("v", Concepts.VacuumPressure, at, Number(mmHg, Unit.MmHg)).Judge()
        .Findings.SingleOrDefault(one => one.Rule.Id == Vacuum)?.Latest.Band;

    private static ChartBuilder Catheter(ChartBuilder chart, decimal french, decimal millimetres) => chart
        .Row("t", Concepts.TubeInnerDiameter, "08:00", Number(millimetres, Unit.Millimetre))
        .Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Number(french, Unit.French)));
}
