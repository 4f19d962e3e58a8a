using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Whether a size charted after a tube was changed ends that the size of the tube before was missing.</summary>
public sealed class CannulaAfterRemovalTests
{
    private const string Check = "tube-diameter-unknown";

    // A cannula of unknown size is in the tube when it is suctioned.
    private static ChartBuilder Suctioned() => CheckWords.Adult()
        .Row("t", Concepts.AirwayType, "08:00", Answer("tracheostomy-tube"))
        .Row("c", Concepts.InnerCannulaInPlace, "08:30", FactValue.Yes)
        .Pass("p", "10:00")
        .Row("d", Concepts.InnerCannulaDiameter, "15:00", Number(6, Unit.Millimetre));

    [Fact]
    public void While_the_tube_is_in_a_charted_size_ends_it() =>
        Assert.Equal(At("15:00"), Suctioned().Judge().Only(Check).EndedAt);

    [Fact]
    public void After_the_tube_was_changed_a_charted_size_is_the_new_tubes()
    {
        var found = Suctioned().Row("n", Concepts.AirwayType, "14:00", Answer("tracheal-tube")).Judge().Only(Check);

        Assert.Null(found.ClearedBy);
        Assert.Equal(At("14:00"), found.EndedAt);
        Assert.True(found.LineEnded);
    }
}
