using AirwayGuard.Host.Service.CdsHooks;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace AirwayGuard.Host.Tests.Service.CdsHooks;

public sealed class CallerLimitsTests
{
    private readonly FakeTimeProvider _clock = new(GivenCheck.Now);

    [Fact]
    public void ACaller_MaySendSoManyInASecond_AndAgainInTheNext()
    {
        var limits = new CallerLimits(2, _clock);
        Assert.Null(limits.Admit("a"));
        Assert.Null(limits.Admit("a"));
        var refusal = limits.Admit("a")!;

        Assert.Equal(("AG8112", 429, 1), (refusal.Code.Id, refusal.Status, refusal.RetryAfterSeconds!.Value));
        _clock.Advance(TimeSpan.FromSeconds(1));
        Assert.Null(limits.Admit("a"));
    }

    [Fact]
    public void OneCaller_TakesNothingFromAnother()
    {
        var limits = new CallerLimits(1, _clock);

        Assert.Null(limits.Admit("a"));
        Assert.NotNull(limits.Admit("a"));
        Assert.Null(limits.Admit(CallerLimits.Loopback));
    }
}
