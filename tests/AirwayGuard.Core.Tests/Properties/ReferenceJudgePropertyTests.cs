using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Core.Tests.Properties;

/// <summary>The oracle must itself keep what it is used to prove.</summary>
public sealed class ReferenceJudgePropertyTests
{
    public static TheoryData<int> Blocks => [.. Enumerable.Range(0, 10)];

    [Theory]
    [MemberData(nameof(Blocks))]
    public void The_same_vacuum_in_any_unit_has_the_same_verdict(int block) => Each(block, HistoryProperties.UnitsChangeNoVerdict);

    [Theory]
    [MemberData(nameof(Blocks))]
    public void Moved_times_give_the_same_verdicts(int block) => Each(block, HistoryProperties.TimeShiftsChangeNoVerdict);

    [Theory]
    [MemberData(nameof(Blocks))]
    public void A_missing_fact_never_makes_a_pass(int block) => Each(block, HistoryProperties.MissingFactsNeverPass);

    [Theory]
    [MemberData(nameof(Blocks))]
    public void Entered_in_error_equals_never_charted(int block) => Each(block, HistoryProperties.EnteredInErrorIsNeverCharted);

    [Theory]
    [MemberData(nameof(Blocks))]
    public void What_begins_later_changes_nothing_before(int block) => Each(block, HistoryProperties.LaterFactsChangeNothingBefore);

    private static void Each(int block, Action<JudgeHistory, int> property)
    {
        for (var seed = block * 10; seed < (block + 1) * 10; seed++)
        {
            property(HistoryProperties.Reference, seed);
        }
    }
}
