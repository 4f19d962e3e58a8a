using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Host.Tests.Properties;

/// <summary>Properties of judging, over random histories on the edges of limits and windows; a failing one prints its seed.</summary>
public sealed class HistoryPropertyTests
{
    public static TheoryData<int> Blocks => [.. Enumerable.Range(0, 20)];

    [Theory]
    [MemberData(nameof(Blocks))]
    public void TheEngineEqualsTheReference(int block) => Each(block, 500, seed => HistoryProperties.EqualsTheReference(EngineRuns.Judge, seed));

    private static void Each(int block, int count, Action<int> property)
    {
        for (var i = 0; i < count; i++)
        {
            property((block * 1000) + i);
        }
    }
}
