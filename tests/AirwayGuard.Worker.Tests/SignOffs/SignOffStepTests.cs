using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.SignOffs;
using Microsoft.Extensions.Logging.Abstractions;
using Xunit;

namespace AirwayGuard.Worker.Tests.SignOffs;

/// <summary>What waits in the folder is done or refused once, and holds up nothing behind it.</summary>
public sealed class SignOffStepTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;
    private SignOffStep _step = null!;
    private int _taken;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private SignOffMail Mail => SignOffMail.In(_bench.DataFolder);

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        _step = new SignOffStep(
            Mail, new SignOffDesk(_bench.Ledger, _bench.Clock),
            _ =>
            {
                _taken++;
                return ValueTask.CompletedTask;
            },
            _bench.Clock, NullLogger<SignOffStep>.Instance);
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    private SignOffRequest Asked(TimeSpan before) =>
        new(SignOffAct.Promote, ShippedRuleSets.Bytes("strict-ranges"), "strict-ranges", [], [], "A. Example", "why") { Posted = _bench.Clock.Now - before };

    [Fact]
    public async Task What_is_asked_now_is_done_and_taken_up()
    {
        var id = Mail.Post(Asked(TimeSpan.FromMinutes(2)));

        await _step.StepAsync(Stop);

        Assert.Null(Mail.Take(id)!.Problem);
        Assert.Equal((1, 1), (_taken, (await _bench.Ledger.SignOffsAsync(Stop)).Count));
    }

    [Fact]
    public async Task What_nobody_waits_for_any_more_is_not_done()
    {
        var id = Mail.Post(Asked(TimeSpan.FromMinutes(2) + TimeSpan.FromSeconds(1)));

        await _step.StepAsync(Stop);

        Assert.Equal(Codes.SignOffNotTaken, Mail.Take(id)!.Problem!.Code);
        Assert.Equal((0, 0), (_taken, (await _bench.Ledger.SignOffsAsync(Stop)).Count));
        Assert.Empty(Mail.Waiting());
    }

    [Fact]
    public async Task What_cannot_be_read_is_answered_and_holds_up_nothing_behind_it()
    {
        Mail.Open();
        await File.WriteAllTextAsync(Path.Combine(_bench.DataFolder, "sign-offs", "0.request"), """{"Act":"Withdraw","Document":"","File":"","Checks":[],"Units":[],"By":null,"Reason":"x"}""", Encoding.UTF8, Stop);
        var id = Mail.Post(Asked(TimeSpan.Zero));

        await _step.StepAsync(Stop);

        Assert.Equal(Codes.SignOffUnreadable, Mail.Take("0")!.Problem!.Code);
        Assert.Null(Mail.Take(id)!.Problem);
        Assert.Empty(Mail.Waiting());
    }
}
