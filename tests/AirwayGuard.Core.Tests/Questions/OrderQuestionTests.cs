using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Questions;
using Xunit;

namespace AirwayGuard.Core.Tests.Questions;

public sealed class OrderQuestionTests
{
    private static readonly long Now = new DateTimeOffset(2026, 3, 1, 8, 4, 30, TimeSpan.Zero).UtcTicks;

    private readonly OrderQuestion _question = new(new RuleSet("n", "1", "", [], []), [], [], TimeSpan.FromHours(24));

    [Fact]
    public void What_is_loaded_reaches_as_far_back_and_ahead_as_is_needed_and_ten_minutes_more_at_most()
    {
        foreach (var minutes in Enumerable.Range(0, 25))
        {
            var (earliest, now) = (Now - TimeSpan.FromHours(minutes).Ticks, Now + TimeSpan.FromMinutes(minutes).Ticks);
            var scope = _question.ScopeAt(earliest, now);

            AssertWithin(scope.Window.From, Math.Min(earliest, now) - TimeSpan.FromHours(24).Ticks);
            AssertWithin(scope.Since, Math.Min(earliest, now) - TimeSpan.FromDays(10).Ticks);
            AssertWithin(now, scope.Window.To);
        }
    }

    [Fact]
    public void Moments_apart_the_same_is_asked_for()
    {
        var scope = _question.ScopeAt(Now, Now);

        Assert.Equal(scope, _question.ScopeAt(Now + TimeSpan.TicksPerMinute, Now + TimeSpan.TicksPerMinute));
        Assert.Equal(scope, _question.ScopeAt(long.MaxValue, Now));
        Assert.NotEqual(scope, _question.ScopeAt(Now + (10 * TimeSpan.TicksPerMinute), Now + (10 * TimeSpan.TicksPerMinute)));
        Assert.NotEqual(scope, _question.ScopeAt(Now - TimeSpan.TicksPerDay, Now));
    }

    private static void AssertWithin(long at, long needed) => Assert.InRange(needed - at, 0, TimeSpan.FromMinutes(10).Ticks);
}
