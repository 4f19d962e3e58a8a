using AirwayGuard.Core.SignOffs;
using AirwayGuard.TestKit.Charts;
using Xunit;

namespace AirwayGuard.Core.Tests.SignOffs;

public sealed class StayPlacesTests
{
    private static string[] At(ChartBuilder chart, string time)
    {
        using var lease = chart.Load();
        return [.. StayPlaces.Of(lease.View, chart.Patient, chart.Entities, ChartBuilder.At(time))];
    }

    [Fact]
    public void It_is_where_the_stay_takes_place_at_the_time()
    {
        var chart = new ChartBuilder().Encounter("e1", "08:00", "12:00", "bed-1").Encounter("e2", "12:00", null, "bed-2");

        Assert.Equal(["Location/bed-1"], At(chart, "10:00"));
        Assert.Equal(["Location/bed-2"], At(chart, "13:00"));
    }

    [Fact]
    public void After_the_last_stay_it_is_where_that_was() =>
        Assert.Equal(["Location/bed-2"], At(new ChartBuilder().Encounter("e1", "08:00", "09:00", "bed-1").Encounter("e2", "09:00", "12:00", "bed-2"), "20:00"));

    [Fact]
    public void Another_patients_stay_at_the_same_bed_is_not_theirs()
    {
        var chart = new ChartBuilder().Encounter("e1", "08:00", "12:00", "bed-1");
        var first = chart.Patient;
        chart.Patients("p2").Encounter("e2", "12:00", null, "bed-1").Encounter("e3", "13:00", null, "bed-9");

        using var lease = chart.Load(first);
        Assert.Equal(["Location/bed-1"], StayPlaces.Of(lease.View, first, chart.Entities, ChartBuilder.At("14:00")));
    }

    [Fact]
    public void Without_a_place_charted_there_is_none() => Assert.Empty(At(new ChartBuilder().Encounter("e1", "08:00"), "10:00"));

    [Fact]
    public void A_regulator_by_itself_is_where_it_stands()
    {
        var chart = new ChartBuilder().RegulatorAt("r1", "bed-7");
        var device = chart.Entities.Intern(Core.Charting.EntityKind.Device, "Device/r1");

        using var lease = chart.Load(device);
        Assert.Equal(["Location/bed-7"], StayPlaces.Of(lease.View, device, chart.Entities, ChartBuilder.At("10:00")));
    }
}
