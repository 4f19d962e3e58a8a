using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using Xunit;

namespace AirwayGuard.Core.Tests.Charting;

/// <summary>A few facts put among many that stand in order already.</summary>
public sealed class FactOrderTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(0, 5)]
    [InlineData(40, 0)]
    [InlineData(40, 1)]
    [InlineData(1, 40)]
    [InlineData(40, 17)]
    public void Facts_merged_into_sorted_ones_stand_as_if_all_were_sorted(int many, int few)
    {
        var random = new Random((many * 100) + few);
        var facts = Enumerable.Range(0, many + few).Select(i => At(random, i)).ToArray();
        var (merged, sorted) = (facts.ToArray(), facts.ToArray());
        merged.AsSpan(0, many).Sort(FactOrder.Instance);

        var index = FactOrder.MergeAndIndex(merged, many);

        Assert.Equal(FactOrder.SortAndIndex(sorted), index);
        Assert.Equal(sorted, merged);
    }

    // Few concepts and times, so that many are equal in both.
    private static Fact At(Random random, int number)
    {
        var at = random.Next(4);
        return new Fact(
            new FactId(new Position(number + 1), 0), new Entity(EntityKind.Patient, 1), default, default, default, new Entity(EntityKind.Row, random.Next(1, 6)), default,
            new Concept((ushort)random.Next(1, 4)), FactMarks.None, 0, at, at, new Position(number + 1), Position.Never, default);
    }
}
