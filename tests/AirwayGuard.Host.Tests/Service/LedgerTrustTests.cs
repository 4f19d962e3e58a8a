using System.Net;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Service;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>A ledger that is damaged or taken away while the service runs is trusted no more: not ready, told by its code, and the service ends.</summary>
public sealed class LedgerTrustTests
{
    private const int Corrupt = 11, NoDatabase = 26;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(Corrupt)]
    [InlineData(NoDatabase)]
    public async Task ADamagedLedgerMakesTheServiceNotReadyAndEndsIt(int code)
    {
        await using var service = await GivenService.StartAsync();
        var (state, trust) = (service.Services.GetRequiredService<ServiceState>(), service.Services.GetRequiredService<LedgerTrust>());
        state.IsReady = true;

        Assert.False(trust.IsLostBy(new SqliteException("busy", 5)));
        Assert.True(trust.IsLostBy(new InvalidOperationException("wrapped", new SqliteException("it says", code))));
        Assert.True(trust.IsLostBy(new SqliteException("again", code)));

        Assert.True(state.HasFailed);
        Assert.True(service.Services.GetRequiredService<IHostApplicationLifetime>().ApplicationStopping.IsCancellationRequested);
        Assert.Equal([("ledger", "AG1605")], service.Services.GetRequiredService<IntakeHealth>().Standing);
        Assert.Equal(2, service.Log.Split("AG1605: The file ledger.db is not a sound database. Nothing that stands in it is trusted, and the service ends.").Length);
        using var ready = await service.GetAsync("/health/ready");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, ready.StatusCode);
        Assert.StartsWith("AG1605 ledger: The file ledger.db is not a sound database.", await ready.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/metrics")]
    public async Task PageAndMetricsThatMeetTheDamage_SayItsCode(string path)
    {
        await using var service = await GivenService.StartAsync();
        await service.Ledger.KeepAsync([], new SweepCursor(JudgeStep.FirstSweep, Charted.Morning, null), Stop);
        Damage(service.Folder);

        using var answer = await service.GetAsync(path);
        var told = await answer.Content.ReadAsStringAsync(Stop);

        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Contains("AG1605 Ledger file is damaged", told, StringComparison.Ordinal);
        Assert.True(service.Services.GetRequiredService<ServiceState>().HasFailed);
        Assert.Equal(HttpStatusCode.OK, (await service.GetAsync("/health/live")).StatusCode);
    }

    [Fact]
    public async Task AFolderThatIsTakenAwayIsNoticed()
    {
        await using var service = await GivenService.StartAsync();
        var trust = service.Services.GetRequiredService<LedgerTrust>();
        await trust.StepAsync(Stop);
        Assert.Null(trust.Lost);
        Directory.Move(Path.Combine(service.Folder, "ledger"), Path.Combine(service.Folder, "away"));

        var looking = new LedgerTrust(
            service.Ledger, service.Services.GetRequiredService<ServiceState>(), service.Services.GetRequiredService<IntakeHealth>(),
            service.Services.GetRequiredService<IHostApplicationLifetime>(), new SetClock(Charted.Morning), service.Services.GetRequiredService<Microsoft.Extensions.Logging.ILogger<LedgerTrust>>());
        await looking.StepAsync(Stop);

        Assert.Equal("AG1608", looking.Lost!.Code.Id);
        Assert.True(service.Services.GetRequiredService<ServiceState>().HasFailed);
        Assert.Contains("AG1608: The file ledger.db is not at its place any more.", service.Log, StringComparison.Ordinal);
    }

    // Behind the service's back, as a bad sector would: every page after the first, in what was written ahead too.
    private static void Damage(string folder)
    {
        foreach (var file in Directory.GetFiles(Path.Combine(folder, "ledger"), "ledger.db*").Where(one => !one.EndsWith("-shm", StringComparison.Ordinal)))
        {
            using var bytes = new FileStream(file, FileMode.Open, FileAccess.Write, FileShare.ReadWrite);
            bytes.Position = Math.Min(4096, bytes.Length);
            bytes.Write([.. Enumerable.Repeat((byte)0x77, (int)(bytes.Length - bytes.Position))]);
        }
    }
}
