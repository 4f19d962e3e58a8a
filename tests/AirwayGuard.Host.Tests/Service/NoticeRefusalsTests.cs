using System.Net;
using AirwayGuard.Host.Service;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>A notice that is turned away is counted by its status and told, without a line for each of a storm.</summary>
public sealed class NoticeRefusalsTests : IDisposable
{
    private readonly SetClock _clock = new(new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero));
    private readonly LoggerFactory _loggers = new();
    private readonly StringWriter _log = new();
    private readonly NoticeRefusals _refusals;

    public NoticeRefusalsTests()
    {
        _loggers.AddProvider(new LineProvider(_log));
        _refusals = new NoticeRefusals(_clock, _loggers.CreateLogger<NoticeRefusals>());
    }

    public void Dispose()
    {
        _loggers.Dispose();
        _log.Dispose();
    }

    [Fact]
    public void TheFirstOfEachStatusIsTold_AndThenOneLineAMinuteWithTheirNumber()
    {
        _refusals.Note(401);
        _refusals.Note(429);
        _refusals.Note(401);
        _clock.Now = _clock.Now.AddSeconds(59);
        _refusals.Note(401);
        var early = Lines;
        _clock.Now = _clock.Now.AddSeconds(1);
        _refusals.Note(401);

        Assert.Equal(
            ["AG1017: 1 notice refused with HTTP 401 since the last such line: Notice without the token of its channel", "AG4013: 1 notice refused with HTTP 429 since the last such line: More notices than are taken"],
            early);
        Assert.Equal("AG1017: 3 notices refused with HTTP 401 since the last such line: Notice without the token of its channel", Lines[2]);
        Assert.Equal([(401, 4L), (429, 1L)], _refusals.Counts);
    }

    [Fact]
    public async Task WhoeverIsTurnedAwayAtTheDoorIsCountedAndTold_AndNothingThatWasSentIsRepeated()
    {
        await using var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<NotifyDoor>().Open("Observation-1", "Observation-1", "invented");
        using var stranger = await service.SendAsync(HttpMethod.Post, "/notify/Mary-Smith", null, ("Authorization", "Bearer guessed-secret"));
        using var foreign = await service.SendAsync(HttpMethod.Post, "/notify/Observation-1", null, ("Origin", "http://ward.example.net"));
        using var known = await service.SendAsync(HttpMethod.Post, "/notify/Observation-1", null, ("Authorization", "Bearer invented"));
        using var elsewhere = await service.GetAsync("/nothing-there");
        var metrics = await service.TextAsync("/metrics");

        Assert.Equal([HttpStatusCode.Unauthorized, HttpStatusCode.Forbidden, HttpStatusCode.Accepted], [stranger.StatusCode, foreign.StatusCode, known.StatusCode]);
        Assert.Contains("\nairwayguard_notices_refused_total{status=\"401\"} 1\nairwayguard_notices_refused_total{status=\"403\"} 1\n#", metrics, StringComparison.Ordinal);
        Assert.Contains("AG1017: 1 notice refused with HTTP 401", service.Log, StringComparison.Ordinal);
        Assert.Contains("AG1007: 1 notice refused with HTTP 403", service.Log, StringComparison.Ordinal);
        Assert.DoesNotContain("Smith", service.Log + metrics, StringComparison.Ordinal);
        Assert.DoesNotContain("guessed", service.Log + metrics, StringComparison.Ordinal);
        Assert.DoesNotContain("ward.example", service.Log + metrics, StringComparison.Ordinal);
    }

    private string[] Lines => _log.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
}
