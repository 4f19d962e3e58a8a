using System.Net;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Service;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Sending;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

/// <summary>A server that is away, a full disk and rows dated ahead, as health, page and metrics tell them.</summary>
public sealed class DegradedTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task WhileTheServerIsAway_AReadyServiceStaysReady_AndSaysSinceWhen()
    {
        await using var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<ServiceState>().IsReady = true;
        await service.Ledger.KeepAsync([], new SweepCursor(JudgeStep.FirstSweep, Charted.Morning, null), Stop);
        Away(service);

        var page = await service.TextAsync("/");
        var lines = (await service.TextAsync("/metrics")).Split('\n');

        Assert.Equal(
            "degraded: the FHIR server has not answered since 2026-03-02T08:00:00Z (1 question without an answer: HTTP 503)\nAG4017 server", await service.TextAsync("/health/ready"));
        Assert.Contains("<strong>What is charted since is not here: the FHIR server has not answered since 2026-03-02T08:00:00Z (1 question without an answer: HTTP 503).</strong>", page, StringComparison.Ordinal);
        Assert.Contains("<li>AG4017 The FHIR server does not answer what it is asked (server). Nothing is lost: ", page, StringComparison.Ordinal);
        Assert.Contains("airwayguard_server_answers 0", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_ready 1", lines, StringComparer.Ordinal);
        Assert.DoesNotContain("airwayguard_server_silent_seconds 0", lines, StringComparer.Ordinal);
        Assert.DoesNotContain(lines, static line => line.StartsWith("airwayguard_catching_up_seconds ", StringComparison.Ordinal));
    }

    [Fact]
    public async Task AQuestionLeftWithoutAnAnswerForMinutes_IsToldThoughOthersAreAnswered()
    {
        await using var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<ServiceState>().IsReady = true;
        await service.Ledger.KeepAsync([], new SweepCursor(JudgeStep.FirstSweep, Charted.Morning, null), Stop);
        var contact = service.Services.GetRequiredService<ServerContact>();
        contact.Unanswered("rows", new Problem(Codes.SweepRefused, "rows", "HTTP 500"), ["Patient", "rows"], isForAll: false, Charted.Morning, 500);
        contact.Answered(Charted.Morning.AddMinutes(1), "Patient");

        var said = "1 question is without an answer since 2026-03-02T08:00:00Z (HTTP 500), and what it asks for is not here since";
        Assert.Equal($"degraded: {said}", (await service.TextAsync("/health/ready")).Split('\n')[0]);
        Assert.Contains($"Not everything is read: {said}.", await service.TextAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task OnceItAnswersAgain_NothingOfItIsLeft()
    {
        await using var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<ServiceState>().IsReady = true;
        Away(service);
        service.Services.GetRequiredService<ServerContact>().Answered(Charted.Morning.AddMinutes(5));

        Assert.Equal("ready", await service.TextAsync("/health/ready"));
        Assert.DoesNotContain("AG4017", await service.TextAsync("/"), StringComparison.Ordinal);
        var lines = (await service.TextAsync("/metrics")).Split('\n');
        Assert.Contains("airwayguard_server_answers 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_server_silent_seconds 0", lines, StringComparer.Ordinal);
    }

    [Fact]
    public async Task AServiceThatWasNeverReady_SaysWhyItIsNot()
    {
        await using var service = await GivenService.StartAsync();
        Away(service);

        using var answer = await service.GetAsync("/health/ready");

        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        var said = await answer.Content.ReadAsStringAsync(Stop);
        Assert.Contains("\ndegraded: the FHIR server has not answered since 2026-03-02T08:00:00Z", said, StringComparison.Ordinal);
        Assert.Contains("\nan unknown time behind, 0 charts wait to be judged; how long catching up takes is not known yet", said, StringComparison.Ordinal);
        Assert.Contains("The service is an unknown time behind, ", await service.TextAsync("/"), StringComparison.Ordinal);
        Assert.DoesNotContain((await service.TextAsync("/metrics")).Split('\n'), static line => line.StartsWith("airwayguard_behind_seconds ", StringComparison.Ordinal));
    }

    // It answers what it is asked, and takes no writes.
    [Fact]
    public async Task FindingsThatWaitForLong_AreSaidInHealth_OnThePage_AndInMetrics()
    {
        await using var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<ServiceState>().IsReady = true;
        service.Services.GetRequiredService<Unsent>().Look(new LedgerState(default, 0, 2, 1, 0, 0, 0) { WaitingSince = Charted.Morning }, Charted.Morning.AddMinutes(5), static _ => true);

        const string Said = "3 findings are not on the server as they stand, the oldest since 2026-03-02T08:00:00Z";
        Assert.Equal($"degraded: {Said}", await service.TextAsync("/health/ready"));
        Assert.Contains($"<li>{Said}.</li>", await service.TextAsync("/"), StringComparison.Ordinal);
        var now = service.Services.GetRequiredService<TimeProvider>().GetUtcNow();
        var age = (await service.TextAsync("/metrics")).Split('\n').Single(static line => line.StartsWith("airwayguard_outbox_oldest_seconds ", StringComparison.Ordinal)).Split(' ')[1];
        Assert.InRange(double.Parse(age, System.Globalization.CultureInfo.InvariantCulture), (now - Charted.Morning).TotalSeconds - 1, (now - Charted.Morning).TotalSeconds + 600);
    }

    [Fact]
    public async Task ADataFolderWithoutRoom_IsSaidInHealthAndOnThePage()
    {
        await using var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<ServiceState>().IsReady = true;
        service.Services.GetRequiredService<StepTroubles>().Failed("judge", new SqliteException("full", 13));

        Assert.Equal(
            "degraded: the data folder has no room; nothing is lost, and nothing new is kept or judged until there is some\nAG1020 data folder", await service.TextAsync("/health/ready"));
        Assert.Contains("<li>AG1020 The data folder has no room (data folder). Nothing is lost: ", await service.TextAsync("/"), StringComparison.Ordinal);
        Assert.Contains("airwayguard_trouble{code=\"AG1020\",part=\"data folder\"} 1", (await service.TextAsync("/metrics")).Split('\n'), StringComparer.Ordinal);
        Assert.Contains("AG1020: the data folder has no room.", service.Log, StringComparison.Ordinal);
    }

    [Fact]
    public async Task RowsDatedAhead_AreAmongThePagesTroubles_WithHowManyPatientsAndUntilWhen()
    {
        await using var service = await GivenService.StartAsync();
        Assert.DoesNotContain("AG4016", await service.TextAsync("/"), StringComparison.Ordinal);
        await AheadAsync(service, "Patient/7", Charted.Minutes(90));
        await AheadAsync(service, "Patient/8", Charted.Minutes(60));

        var page = await service.TextAsync("/");

        Assert.Contains("<li>AG4016 A row is dated later than now, in the charts of 2 patients; the first begins to count at 2026-03-02 09:00 UTC. ", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Patient/7", page, StringComparison.Ordinal);
        Assert.Contains("airwayguard_patients_charted_ahead 2", (await service.TextAsync("/metrics")).Split('\n'), StringComparer.Ordinal);
    }

    private static void Away(GivenService service) =>
        service.Services.GetRequiredService<ServerContact>().Unanswered("Patient", new Problem(Codes.SweepRefused, "Patient", "HTTP 503"), ["Patient"], isForAll: false, Charted.Morning);

    private static async Task AheadAsync(GivenService service, string patient, long at)
    {
        await service.Ledger.KeepAsync([Charted.Vacuum(service.Ledger, "of" + patient[^1], "1", patient, 120)], null, Stop);
        var work = (await service.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), Charted.Morning, Stop))!;
        await service.Ledger.DecideAsync(
            new Decision(work.Patient, work.UpTo, Charted.Morning.UtcTicks, work.Fence, "b", [], [], [new DueTime(at, PatientJudge.ChartedAhead), new DueTime(at + 1, "pass-too-long")], []), Stop);
    }
}
