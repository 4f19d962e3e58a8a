using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.Logging;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>A server that is away is told within a sweep or two, once, and once when it is back.</summary>
public sealed class ServerContactTests : IAsyncLifetime
{
    private static readonly DateTimeOffset Morning = IntakeBench.Morning;

    private readonly SourceFake _source = new("Patient", "rows", "orders");
    private readonly Listening<SweepStep> _sweeps = new();
    private readonly Listening<ServerContact> _server = new();
    private IntakeBench _bench = null!;
    private ServerContact _contact = null!;
    private SweepStep _sweep = null!;

    public async ValueTask InitializeAsync()
    {
        _bench = await IntakeBench.OpenAsync();
        _contact = new ServerContact(_bench.Health, _bench.Options, _server);
        _sweep = _bench.Sweep(_source, contact: _contact, logger: _sweeps);
        Back();
        await IntakeBench.SettleAsync(_sweep);
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task WhereNothingIsAnswered_TheFirstSweepTellsIt_WithSinceWhen_AndAsOneTrouble()
    {
        await AwayAsync(seconds: 30);

        Assert.Equal(new ServerSilence(Morning.AddSeconds(30), 3), _contact.Silence);
        Assert.Equal([("server", "AG4017")], _bench.Health.Standing);
        Assert.Empty(_sweeps.Said);
        Assert.Equal(
            (LogLevel.Warning, "AG4017: the FHIR server has not answered since 2026-03-02T08:00:30Z; 3 questions without an answer (AG4001: Server did not answer a sweep). Nothing is lost: they are asked again until it does"),
            Assert.Single(_server.Said));
    }

    [Fact]
    public async Task HoweverLongItLasts_ItIsOneLine_AndOneMoreWhenItIsOver()
    {
        await AwayAsync(seconds: 30);
        for (var minute = 0; minute < 20; minute++)
        {
            await AwayAsync(seconds: 60);
        }

        Assert.Equal(Morning.AddSeconds(30), _contact.Silence!.Since);
        Assert.Single(_server.Said);
        Back();
        _bench.Turn(seconds: 10);
        await IntakeBench.SettleAsync(_sweep);

        Assert.Null(_contact.Silence);
        Assert.Empty(_bench.Health.Standing);
        Assert.Empty(_sweeps.Said);
        Assert.Equal(
            (LogLevel.Information, "AG4017 is over: the FHIR server answers again after 1210 s, in which 3 questions had no answer; what was charted meanwhile is read now"),
            Assert.Single(_server.Said.Skip(1)));
    }

    [Fact]
    public async Task OneQuestionWithoutAnAnswer_IsToldByItself()
    {
        _source.Answer = question => question.Query == "rows" ? SourceFake.Trouble(Codes.SweepRefused) : SourceFake.Page(_bench.Clock.GetUtcNow());
        for (var second = 0; second < 300; second += 5)
        {
            _bench.Turn(seconds: 5);
            await IntakeBench.SettleAsync(_sweep);
        }

        Assert.Null(_contact.Silence);
        Assert.Equal([("rows", "AG4001")], _bench.Health.Standing);
        Assert.Equal("AG4001 in the sweep of rows: Server did not answer a sweep", Assert.Single(_sweeps.Said).Text);
        Assert.Empty(_server.Said);
    }

    // Where each question takes half a minute to fail, all of them take minutes.
    [Theory]
    [InlineData(59, false)]
    [InlineData(60, true)]
    public void WithoutAnyAnswerForTwoSweeps_ItIsAway_ThoughNotAllWasAskedYet(int seconds, bool isAway)
    {
        _contact.Answered(Morning);
        _contact.Unanswered("rows", Refused, ["Patient", "rows"], false, Morning.AddSeconds(29));
        _contact.Unanswered("rows", Refused, ["Patient", "rows"], false, Morning.AddSeconds(seconds));

        Assert.Equal(isAway ? new ServerSilence(Morning.AddSeconds(29), 1) : null, _contact.Silence);
        Assert.Equal([isAway ? ("server", "AG4017") : ("rows", "AG4001")], _bench.Health.Standing);
    }

    [Fact]
    public void AServerThatAsksToBeLeftAlone_IsAwayAtOnce()
    {
        _contact.Unanswered("rows", Refused, ["Patient", "rows"], isForAll: true, Morning);

        Assert.Equal(Morning, _contact.Silence!.Since);
    }

    [Fact]
    public async Task ARefusalIsAnAnswer()
    {
        _source.Answer = _ => SourceFake.Trouble(Codes.SweepRefused, isOffered: false);
        _bench.Turn(seconds: 300);
        await IntakeBench.SettleAsync(_sweep);

        Assert.Null(_contact.Silence);
        Assert.Equal(3, _sweeps.Said.Count);
    }

    private static Problem Refused => new(Codes.SweepRefused, "", Codes.SweepRefused.Title);

    private void Back() => _source.Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow());

    private async Task AwayAsync(double seconds)
    {
        _source.Answer = _ => SourceFake.Trouble(Codes.SweepRefused);
        _bench.Turn(seconds);
        await IntakeBench.SettleAsync(_sweep);
    }
}
