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

        Assert.Equal(new ServerSilence(Morning.AddSeconds(30), 3, "Server did not answer a sweep", false), _contact.Silence);
        Assert.Equal([("server", "AG4017")], _bench.Health.Standing);
        Assert.Empty(_sweeps.Said);
        Assert.Equal(
            (LogLevel.Warning, "AG4017: the FHIR server has not answered since 2026-03-02T08:00:30Z (3 questions without an answer: Server did not answer a sweep). Nothing is lost: what was asked is asked again until it is answered"),
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

    [Theory]
    [InlineData(500, 299, false)]
    [InlineData(500, 300, true)]
    public void AQuestionLeftWithoutAnAnswerForMinutes_IsKnownByItself(int status, int seconds, bool isOpen)
    {
        string[] questions = ["Patient", "rows"];
        _contact.Answered(Morning, "Patient");
        _contact.Unanswered("rows", new Problem(Codes.SweepRefused, "rows", $"HTTP {status}"), questions, false, Morning, status);
        _contact.Answered(Morning.AddSeconds(10), "Patient");
        _contact.Unanswered("rows", new Problem(Codes.SweepRefused, "rows", "HTTP 502"), questions, false, Morning.AddSeconds(20), 502);
        _contact.Answered(Morning.AddSeconds(30), "Patient");

        Assert.Equal(isOpen ? new OpenQuestions(1, Morning, "HTTP 500") : null, _contact.Open(Morning.AddSeconds(seconds)));
        _contact.Answered(Morning.AddSeconds(seconds), "rows");
        Assert.Null(_contact.Open(Morning.AddDays(1)));
    }

    [Fact]
    public void AQuestionThatIsRefused_IsNotLeftOpen()
    {
        _contact.Unanswered("rows", new Problem(Codes.SweepRefused, "rows", "HTTP 404"), ["Patient", "rows"], false, Morning, 404);
        _contact.Answered(Morning, "Patient");

        Assert.Null(_contact.Open(Morning.AddHours(1)));
    }

    [Fact]
    public async Task ALongerWaitThanItIsGiven_IsCutAndTold()
    {
        _source.Answer = _ => SourceFake.Trouble(Codes.ServerBusy, TimeSpan.FromHours(1));
        _bench.Turn(seconds: 30);
        await IntakeBench.SettleAsync(_sweep);

        Assert.Equal("Server is busy; it asks for 3600 s, and is asked again after 600 s", _contact.Silence!.Cause);
        Back();
        _bench.Turn(seconds: 600);
        await IntakeBench.SettleAsync(_sweep);
        Assert.Null(_contact.Silence);
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

        Assert.Equal(isAway ? new ServerSilence(Morning.AddSeconds(29), 1, "Server did not answer a sweep", false) : null, _contact.Silence);
        Assert.Equal([isAway ? ("server", "AG4017") : ("rows", "AG4001")], _bench.Health.Standing);
    }

    [Fact]
    public void AServerThatAsksToBeLeftAlone_IsAwayAtOnce()
    {
        _contact.Unanswered("rows", Refused, ["Patient", "rows"], isForAll: true, Morning);

        Assert.Equal(Morning, _contact.Silence!.Since);
    }

    // As where a scope was revoked or the path has moved.
    [Theory]
    [InlineData(403)]
    [InlineData(404)]
    public async Task WhereEveryQuestionIsRefused_ItIsTold_AsOneOutage_ThatSaysThatItRefuses_AndWithWhat(int status)
    {
        _source.Answer = _ => RefusedWith(status);
        _bench.Turn(seconds: 30);
        await IntakeBench.SettleAsync(_sweep);

        Assert.Equal(new ServerSilence(Morning.AddSeconds(30), 3, $"HTTP {status}", true), _contact.Silence);
        Assert.Equal([("server", "AG4017")], _bench.Health.Standing);
        Assert.Empty(_sweeps.Said);
        Assert.StartsWith(
            $"AG4017: the FHIR server has refused what it is asked since 2026-03-02T08:00:30Z (3 questions without an answer: HTTP {status}). Nothing is lost", Assert.Single(_server.Said).Text,
            StringComparison.Ordinal);
        Back();
        _bench.Turn(seconds: 300);
        await IntakeBench.SettleAsync(_sweep);
        Assert.Null(_contact.Silence);
        Assert.Empty(_bench.Health.Standing);
        Assert.Equal(2, _server.Said.Count);
    }

    [Fact]
    public async Task ARefusalOfOneQuestion_IsToldOfThatOne()
    {
        _source.Answer = question => question.Query == "orders" ? RefusedWith(404) : SourceFake.Page(_bench.Clock.GetUtcNow());
        for (var second = 0; second < 900; second += 5)
        {
            _bench.Turn(seconds: 5);
            await IntakeBench.SettleAsync(_sweep);
        }

        Assert.Null(_contact.Silence);
        Assert.Equal([("orders", "AG4001")], _bench.Health.Standing);
        Assert.Equal("AG4001 in the sweep of orders: Server did not answer a sweep (HTTP 404)", Assert.Single(_sweeps.Said).Text);
        Assert.Empty(_server.Said);
    }

    // It gave no list of what it offers either: that deletions cannot be asked for is no news of its own.
    [Fact]
    public async Task WhatAServerThatRefusesAllDoesNotOffer_IsNotToldMeanwhile()
    {
        var source = new SourceFake("Patient", "rows", "orders") { Deletions = ["rows deleted"], Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow()) };
        var sweep = _bench.Sweep(source, contact: _contact, logger: _sweeps);
        await IntakeBench.SettleAsync(sweep);
        source.Answer = question => question.Query == "rows deleted" ? SourceFake.Trouble(Codes.DeletionsNotSeen, isOffered: false) : RefusedWith(403);
        _bench.Turn(seconds: 300);
        await IntakeBench.SettleAsync(sweep);

        Assert.Empty(_sweeps.Said);
        Assert.Equal([("server", "AG4017")], _bench.Health.Standing);
    }

    [Fact]
    public void ThatTheServerWasLeftAlone_IsNoCause_TheFirstThatIsOneIsNamed()
    {
        foreach (var (query, why, wasAsked) in (ReadOnlySpan<(string, string, bool)>)[("Patient", "left alone", false), ("rows", "HTTP 500", true), ("orders", "ConnectionRefused", true)])
        {
            _contact.Unanswered(query, new Problem(Codes.SweepRefused, query, why), ["Patient", "rows", "orders"], false, Morning, wasAsked ? 500 : null, wasAsked);
        }

        _contact.Unanswered("rows", new Problem(Codes.SweepRefused, "rows", "left alone"), ["Patient", "rows", "orders"], false, Morning.AddSeconds(5), null, wasAsked: false);

        Assert.Equal("HTTP 500", _contact.Silence!.Cause);
        Assert.EndsWith("(3 questions without an answer: HTTP 500)", _contact.Silence.ToString(), StringComparison.Ordinal);
        Assert.Contains("HTTP 500", Assert.Single(_server.Said).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void AServerThatWasAwayAndThenRefuses_IsSaidToRefuse()
    {
        _contact.Unanswered("rows", new Problem(Codes.SweepRefused, "rows", "ConnectionRefused"), ["rows"], false, Morning);
        Assert.Equal("the FHIR server has not answered since 2026-03-02T08:00:00Z (1 question without an answer: ConnectionRefused)", _contact.Silence!.ToString());
        _contact.Unanswered("rows", new Problem(Codes.SweepRefused, "rows", "HTTP 401"), ["rows"], false, Morning.AddSeconds(30), status: 401);

        Assert.Equal("the FHIR server has refused what it is asked since 2026-03-02T08:00:00Z (1 question without an answer: HTTP 401)", _contact.Silence!.ToString());
        _contact.Answered(Morning.AddSeconds(60));
        Assert.Contains("after 60 s, in which 1 question had no answer", _server.Said[^1].Text, StringComparison.Ordinal);
    }

    private static SourcePage RefusedWith(int status) =>
        new([], null, null, new Problem(Codes.SweepRefused, "", $"HTTP {status}"), null, IsOffered: false) { Status = status };

    private static Problem Refused => new(Codes.SweepRefused, "", Codes.SweepRefused.Title);

    private void Back() => _source.Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow());

    private async Task AwayAsync(double seconds)
    {
        _source.Answer = _ => SourceFake.Trouble(Codes.SweepRefused);
        _bench.Turn(seconds);
        await IntakeBench.SettleAsync(_sweep);
    }
}
