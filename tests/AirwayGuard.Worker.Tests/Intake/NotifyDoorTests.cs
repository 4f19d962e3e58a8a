using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>Who may pull a sweep forward, and how often (design: doors of the service).</summary>
public sealed class NotifyDoorTests : IDisposable
{
    private readonly NoticeBoard _board = new();
    private readonly FakeTimeProvider _clock = new(new DateTimeOffset(2026, 3, 1, 9, 0, 0, TimeSpan.Zero));
    private readonly IntakeHealth _health = new();
    private readonly NotifyDoor _door;

    public NotifyDoorTests()
    {
        _door = new NotifyDoor(_board, _health, _clock);
        _door.Open("rows", "Observation-1", "token");
    }

    public void Dispose() => _board.Dispose();

    [Fact]
    public void TheChannelsTokenPullsItsQuestionOnce()
    {
        Assert.Equal(202, _door.Answer("rows", "Bearer token", 0));
        Assert.Equal(202, _door.Answer("rows", "Bearer token", null));

        Assert.True(_board.Take("Observation-1"));
        Assert.False(_board.Take("Observation-1"));
    }

    [Theory]
    [InlineData("rows", "Bearer other")]
    [InlineData("rows", "token")]
    [InlineData("rows", null)]
    [InlineData("elsewhere", "Bearer token")]
    [InlineData("elsewhere", null)]
    public void EverybodyElseIsTurnedAwayAlike(string channel, string? authorization)
    {
        Assert.Equal(401, _door.Answer(channel, authorization, 0));
        Assert.False(_board.IsAsked);
    }

    [Fact]
    public void ALargeBodyIsRefused()
    {
        Assert.Equal(413, _door.Answer("rows", "Bearer token", NotifyDoor.LargestBody + 1));
        Assert.False(_board.IsAsked);
    }

    [Fact]
    public void ANoticeThatIsRefusedForItsNumberIsCountedToldAndMarksTheBoardAllTheSame()
    {
        for (var i = 0; i < NotifyDoor.MostASecond; i++)
        {
            _door.Answer("rows", "Bearer token", 0);
        }

        _board.Take("Observation-1");

        Assert.Equal(429, _door.Answer("rows", "Bearer token", 0));
        Assert.True(_board.Take("Observation-1"));
        Assert.Equal(1, _door.Refused);
        Assert.Equal([("Observation-1", "AG4013")], _health.Standing);
    }

    [Fact]
    public void AMinuteWithoutARefusalIsCalmAgain()
    {
        for (var i = 0; i <= NotifyDoor.MostASecond; i++)
        {
            _door.Answer("rows", "Bearer token", 0);
        }

        _clock.Advance(TimeSpan.FromSeconds(59));
        _door.Answer("rows", "Bearer token", 0);
        var during = _health.Standing.Count;
        _clock.Advance(TimeSpan.FromSeconds(1));
        _door.Answer("rows", "Bearer token", 0);

        Assert.Equal((1, 0), (during, _health.Standing.Count));
    }

    [Fact]
    public void FiftyNoticesASecondAreTakenAndNoMore()
    {
        for (var i = 0; i < NotifyDoor.MostASecond; i++)
        {
            Assert.Equal(202, _door.Answer("rows", "Bearer token", 0));
        }

        Assert.Equal(429, _door.Answer("rows", "Bearer token", 0));
    }

    [Fact]
    public void AClosedChannelIsUnknown()
    {
        _door.Close("rows");

        Assert.Equal(401, _door.Answer("rows", "Bearer token", 0));
    }
}
