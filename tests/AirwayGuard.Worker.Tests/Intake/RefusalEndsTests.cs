using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Intake;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>A server that refuses everything is asked one thing a minute; once it answers, everything is asked at once.</summary>
public sealed class RefusalEndsTests : IAsyncLifetime
{
    private readonly SourceFake _source = new("Patient", "rows", "orders") { Deletions = ["deleted"] };
    private bool _refuses = true;
    private TimeSpan? _retryAfter;
    private IntakeBench _bench = null!;
    private SweepStep _sweep = null!;

    public async ValueTask InitializeAsync()
    {
        _bench = await IntakeBench.OpenAsync();
        _sweep = _bench.Sweep(_source, contact: new ServerContact(_bench.Health, _bench.Options));
        _source.Answer = _ => _refuses
            ? SourceFake.Trouble(Codes.SweepRefused, _retryAfter, isOffered: false) with { Status = 403 }
            : SourceFake.Page(_bench.Clock.GetUtcNow());
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task WhileEverythingIsRefused_OneQuestionAMinuteIsAsked_AndAllOfThemWithTheWideSweep()
    {
        Assert.Equal(3, await AskedAfterAsync(0));

        Assert.Equal(0, await AskedAfterAsync(59));
        Assert.Equal(1, await AskedAfterAsync(1));
        Assert.Equal(0, await AskedAfterAsync(59));
        Assert.Equal(1, await AskedAfterAsync(1));
        Assert.Equal(1, await AskedAfterAsync(60));
        Assert.Equal(1, await AskedAfterAsync(60));
        Assert.InRange(await AskedAfterAsync(60), 1, 3);
        Assert.Equal(["Patient", "rows", "orders", "Patient"], _source.Asked.Skip(3).Take(4).Select(asked => asked.Query), StringComparer.Ordinal);
    }

    [Fact]
    public async Task TheFirstAnswer_LetsEveryQuestionGoAtOnce()
    {
        await AskedAfterAsync(0);
        _refuses = false;

        Assert.Equal(4, await AskedAfterAsync(60));
        Assert.Equal(["Patient", "deleted", "orders", "rows"], _source.Asked.Skip(3).Select(asked => asked.Query).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.True(_sweep.FirstSweepDone);
        Assert.Empty(_bench.Health.Standing);
    }

    [Fact]
    public async Task AfterItWasAnsweredBefore_ItIsTheSame_AndFromTheCursors()
    {
        _refuses = false;
        await AskedAfterAsync(0);
        _refuses = true;
        await AskedAfterAsync(300);
        _refuses = false;

        Assert.InRange(await AskedAfterAsync(60), 4, 5);
        Assert.All(_source.Asked.Skip(8), asked => Assert.NotNull(asked.Since));
        Assert.Equal(_bench.Clock.GetUtcNow(), await _bench.CursorAsync("orders"));
    }

    [Fact]
    public async Task AServerThatNamesALongerWait_IsNotAskedBefore()
    {
        _retryAfter = TimeSpan.FromSeconds(200);
        await AskedAfterAsync(0);

        Assert.Equal(0, await AskedAfterAsync(199));
        Assert.Equal(1, await AskedAfterAsync(1));
    }

    [Fact]
    public async Task OneQuestionThatIsRefusedWhileOthersAreAnswered_WaitsForTheWideSweepAsBefore()
    {
        _source.Answer = asked => asked.Query == "orders"
            ? SourceFake.Trouble(Codes.SweepRefused, isOffered: false) with { Status = 403 }
            : SourceFake.Page(_bench.Clock.GetUtcNow());
        await AskedAfterAsync(0);
        for (var second = 1; second < 300; second++)
        {
            await AskedAfterAsync(1);
        }

        Assert.Single(_source.Asked, asked => asked.Query == "orders");
    }

    private async Task<int> AskedAfterAsync(int seconds)
    {
        var before = _source.Asked.Count;
        _bench.Turn(seconds);
        await IntakeBench.SettleAsync(_sweep);
        return _source.Asked.Count - before;
    }
}
