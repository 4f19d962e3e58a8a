using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Core.Tests.Properties;

/// <summary>The reference on what falls due, on outlets and on airways.</summary>
public sealed class ReferenceDueTests
{
    private const string Stale = "vacuum-reading-stale", Supply = "wall-supply-low", Unknown = "tube-diameter-unknown", Assessment = "airway-assessment-overdue";

    private static ChartRow Tube => Told.Number("tube-inner-diameter", Told.At(0), 8m, "mm");

    [Theory]
    [InlineData(12 * 60, 0, "pass")]
    [InlineData(12 * 60, 1, "breach")]
    public void A_reading_is_due_more_than_twelve_hours_after_the_episode_began(int minutes, int seconds, string says) =>
        Assert.Equal(says, Told.Judge(Told.Adult.With(Tube, Told.Pass(Told.At(10)), Told.Vacuum(Told.At(minutes, seconds), 100m))).Says(Stale));

    [Fact]
    public void A_reading_is_due_only_while_there_is_suction()
    {
        Assert.Equal("pass", Told.Judge(Told.Adult.With(Tube, Told.Mode(Told.At(14 * 60), "regulated"))).Says(Stale));
        var late = Assert.Single(Told.Judge(Told.Adult.With(Tube, Told.Pass(Told.At(14 * 60)), Told.Mode(Told.At(15 * 60), "regulated"))).Of(Stale));
        Assert.Equal(Told.At(14 * 60), late.At);
        Assert.Equal(12m, late.Value);
    }

    [Fact]
    public void A_reading_by_a_metric_of_category_setting_is_none()
    {
        var set = Told.Vacuum(Told.At(5), 100m) with { Device = "DeviceMetric/m" };
        var history = Told.Adult with { Things = [new("r", "vacuum-regulator")], Metrics = [new("m", "r", "setting")] };
        Assert.Equal(Told.At(12 * 60), Assert.Single(Told.Judge(history.With(Tube, set, Told.Pass(Told.At(10)), Told.Mode(Told.At(15 * 60), "regulated"))).Of(Stale)).At);
    }

    [Theory]
    [InlineData(299, "mm[Hg]", "breach")]
    [InlineData(300, "mm[Hg]", "pass")]
    [InlineData(39.95, "kPa", "pass")]
    [InlineData(39.9, "kPa", "breach")]
    [InlineData(350, null, "cannot-tell")]
    public void An_outlet_supplies_three_hundred(double amount, string? unit, string says)
    {
        var row = Told.Number("full-line-vacuum", Told.At(0), (decimal)amount, unit) with { About = "Location/bay" };
        var report = Told.Judge((Told.Adult with { Places = ["bay"] }).With(row));
        Assert.Equal(says, report.Says(Supply));
        Assert.All(report.Of(Supply), f => Assert.Null(f.Patient));
    }

    [Fact]
    public void A_diameter_charted_after_the_wait_clears_and_one_within_it_is_on_file()
    {
        var history = Told.Adult.With(Told.Answer("airway-type", Told.At(0), "tracheal-tube"), Told.Pass(Told.At(10)));
        Assert.Equal("open", Assert.Single(Told.Judge(history).Of(Unknown)).State);
        Assert.Equal("cleared", Assert.Single(Told.Judge(history.With(Told.Number("tube-inner-diameter", Told.At(200), 8m, "mm"))).Of(Unknown)).State);
        Assert.Equal("pass", Told.Judge(history.With(Told.Number("tube-inner-diameter", Told.At(60), 8m, "mm"))).Says(Unknown));
        Assert.Equal("pass", Told.Judge(history, asOf: Told.At(100)).Says(Unknown));
    }

    [Fact]
    public void A_tracheostomy_is_due_for_assessment_once_after_two_hours()
    {
        var history = Told.Adult.With(Told.Answer("airway-type", Told.At(0), "tracheostomy-tube"), Told.Mode(Told.At(600), "regulated"));
        Assert.Equal(Told.At(120), Assert.Single(Told.Judge(history).Of(Assessment)).At);
        var assessed = Told.Judge(history.With(Told.YesNo("airway-assessed", Told.At(300), true)));
        Assert.Equal([Told.At(120), Told.At(420)], assessed.Of(Assessment).Select(f => f.At));
        Assert.Equal(["cleared", "open"], assessed.Of(Assessment).Select(f => f.State), StringComparer.Ordinal);
        Assert.Equal("pass", Told.Judge(Told.Adult.With(Told.Answer("airway-type", Told.At(0), "tracheal-tube"), Told.Mode(Told.At(600), "regulated"))).Says(Assessment));
    }
}
