using System.Net;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Service;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.Worker.Backlog;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

public sealed class ServiceEndpointsTests
{
    private static readonly CancellationToken Stop = TestContext.Current.CancellationToken;

    [Fact]
    public async Task TheService_LivesAtOnce_AndIsReadyOnceEverythingWasAskedForAndJudged()
    {
        await using var service = await GivenService.StartAsync();
        var state = service.Services.GetRequiredService<ServiceState>();

        Assert.Equal("live", await service.TextAsync("/health/live"));
        Assert.StartsWith("asking the server for everything for the first time", await UnreadyAsync(service), StringComparison.Ordinal);
        state.IsAsked = true;
        Assert.StartsWith("judging what was there", await UnreadyAsync(service), StringComparison.Ordinal);

        state.IsReady = true;
        Assert.Equal("ready", await service.TextAsync("/health/ready"));
    }

    [Fact]
    public async Task WhileBehind_HealthPageAndMetricsSayHowFar_AndThatItIsNotKnownHowLongItTakes()
    {
        await using var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<ServiceState>().IsReady = true;
        var now = service.Services.GetRequiredService<TimeProvider>().GetUtcNow();
        await KeepKnownAsync(service, now.AddHours(-8));

        Assert.Matches("^ready\n8 h 0 min behind, 1 chart waits to be judged; how long catching up takes is not known yet$", await service.TextAsync("/health/ready"));
        Assert.Contains("8 h 0 min behind, 1 chart waits to be judged; how long catching up takes is not known yet", await service.TextAsync("/"), StringComparison.Ordinal);
        var lines = (await service.TextAsync("/metrics")).Split('\n');
        Assert.InRange(ValueOf(lines, "airwayguard_behind_seconds")!.Value, 8 * 3600, (8 * 3600) + 600);
        Assert.Null(ValueOf(lines, "airwayguard_catching_up_seconds"));
    }

    [Fact]
    public async Task OnceJudgingWasMeasured_HealthAndMetricsSayAboutHowLongCatchingUpTakes()
    {
        await using var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<ServiceState>().IsReady = true;
        await KeepKnownAsync(service, service.Services.GetRequiredService<TimeProvider>().GetUtcNow().AddHours(-8));
        for (var i = 0; i < 10; i++)
        {
            service.Services.GetRequiredService<Paces>().Judging.Ran(TimeSpan.FromSeconds(25), 1);
        }

        Assert.EndsWith("; caught up in about 25 s", await service.TextAsync("/health/ready"), StringComparison.Ordinal);
        Assert.Equal(25, ValueOf((await service.TextAsync("/metrics")).Split('\n'), "airwayguard_catching_up_seconds")!.Value, 1e-6);
    }

    [Fact]
    public async Task WithNothingToDo_MetricsSaySo()
    {
        await using var service = await GivenService.StartAsync();
        await service.Ledger.KeepAsync([], new SweepCursor(JudgeStep.FirstSweep, Charted.Morning, null), Stop);

        var lines = (await service.TextAsync("/metrics")).Split('\n');

        Assert.Equal((0, 0), (ValueOf(lines, "airwayguard_behind_seconds"), ValueOf(lines, "airwayguard_catching_up_seconds")));
    }

    [Fact]
    public async Task ThePage_ShowsWhatStands()
    {
        await using var service = await GivenService.StartAsync("AirwayGuard:UnknownAge=strictest-band");
        await JudgeAsync(service);

        var page = await service.TextAsync("/");

        Assert.Contains("Patient/7", page, StringComparison.Ordinal);
        Assert.Contains("Vacuum above ceiling", page, StringComparison.Ordinal);
        Assert.Contains("250 mmHg", page, StringComparison.Ordinal);
        Assert.Contains("This is no alarm", page, StringComparison.Ordinal);
        Assert.Contains("not been asked for everything yet", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnEmptyPage_DoesNotSayThatAllIsWell()
    {
        await using var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<ServiceState>().IsReady = true;

        var page = await service.TextAsync("/");

        Assert.Contains("No finding stands.", page, StringComparison.Ordinal);
        Assert.Contains("Nothing listed is not \"all well\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("not been asked for everything yet", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TheMetrics_CountWhatTheLedgerHolds_AndNameNobody()
    {
        await using var service = await GivenService.StartAsync("AirwayGuard:UnknownAge=strictest-band", "AirwayGuard:Mode=live");
        await JudgeAsync(service);

        using var answer = await service.GetAsync("/metrics");
        var lines = (await answer.Content.ReadAsStringAsync(Stop)).Split('\n');

        Assert.Equal("text/plain; version=0.0.4; charset=utf-8", answer.Content.Headers.ContentType!.ToString());
        Assert.Contains("airwayguard_arrivals_total 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_judgements_total 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_patients_waiting 0", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_findings{check=\"vacuum-above-ceiling\",verdict=\"breach\",state=\"open\"} 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_findings{check=\"vacuum-above-ceiling\",verdict=\"breach\",state=\"cleared\"} 0", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_findings{check=\"pass-too-long\",verdict=\"breach\",state=\"open\"} 0", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_findings_raised_total{check=\"vacuum-above-ceiling\"} 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_findings_shown_total{check=\"vacuum-above-ceiling\"} 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_findings_withheld_total{check=\"vacuum-above-ceiling\"} 0", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_parked 0", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_live 1", lines, StringComparer.Ordinal);
        Assert.Contains(lines, line => line.StartsWith("airwayguard_outbox{state=\"pending\"} ", StringComparison.Ordinal) && line != "airwayguard_outbox{state=\"pending\"} 0");
        Assert.Contains(lines, line => line.StartsWith("airwayguard_newest_arrival_age_seconds ", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.StartsWith("airwayguard_sweep_age_seconds{question=\"Patient\"} ", StringComparison.Ordinal));
        Assert.DoesNotContain(lines, line => line.Contains("Patient/", StringComparison.Ordinal));
    }

    [Fact]
    public async Task EveryMetric_HasHelpAndTypeOnce_BeforeItsSamples()
    {
        await using var service = await GivenService.StartAsync();

        var known = new HashSet<string>(StringComparer.Ordinal);
        foreach (var line in (await service.TextAsync("/metrics")).Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.StartsWith("# TYPE ", StringComparison.Ordinal))
            {
                Assert.True(known.Add(line.Split(' ')[2]), line);
                // Prometheus text format 0.0.4, "Histograms and summaries": samples bear the name with one of these ends.
                if (line.EndsWith(" histogram", StringComparison.Ordinal))
                {
                    known.UnionWith(((string[])["_bucket", "_sum", "_count"]).Select(end => line.Split(' ')[2] + end));
                }
            }
            else if (line[0] != '#')
            {
                Assert.Contains(line.Split('{', ' ')[0], known);
                Assert.True(double.TryParse(line.Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture, out _), line);
            }
        }

        Assert.True(known.Count > 10);
    }

    [Fact]
    public async Task WhatIsParkedAndWhatFails_StandsInHealthAndMetrics_ByCode()
    {
        await using var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<ServiceState>().IsReady = true;
        await service.Ledger.KeepAsync([Charted.Vacuum(service.Ledger, "o1", "1", "Patient/7", 250)], null, Stop);
        var work = (await service.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), Charted.Morning, Stop))!;
        await service.Ledger.FailAsync(new FailedJudgement(work.Patient, work.Fence, "AG4014", Charted.Morning, null), Stop);
        service.Services.GetRequiredService<IntakeHealth>().Report("step sweep", Codes.StepFailed);

        var lines = (await service.TextAsync("/metrics")).Split('\n');

        Assert.Equal("ready\nAG1012 step sweep\nAG4014 parked: 1", await service.TextAsync("/health/ready"));
        Assert.Contains("airwayguard_parked 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_parked_by_code{code=\"AG4014\"} 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_trouble{code=\"AG1012\",part=\"step sweep\"} 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_judging_behind_seconds 0", lines, StringComparer.Ordinal);
    }

    [Fact]
    public async Task RowsReadWithAProblemAndRowsNotMapped_AreCountedByCodeAlone()
    {
        await using var service = await GivenService.StartAsync();
        var tally = service.Services.GetRequiredService<SweepStep>().Tally;
        tally.Add([("Observation", Codes.ValueMissing), ("Observation", Codes.ValueMissing), ("Device", Codes.ValueMissing), ("Observation", Codes.CodingsDiffer)]);
        tally.AddNotMapped(4);

        var lines = (await service.TextAsync("/metrics")).Split('\n');

        Assert.Contains("airwayguard_problems_total{code=\"AG2120\"} 3", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_problems_total{code=\"AG2122\"} 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_rows_not_mapped_total 4", lines, StringComparer.Ordinal);
    }

    [Fact]
    public async Task HowFarJudgingIsBehind_IsTheAgeOfTheOldestArrivalThatWaits()
    {
        await using var service = await GivenService.StartAsync();
        await service.Ledger.KeepAsync([Charted.Vacuum(service.Ledger, "o1", "1", "Patient/7", 250)], null, Stop);
        var now = service.Services.GetRequiredService<TimeProvider>().GetUtcNow();
        await service.Ledger.KeepAsync([Charted.Vacuum(service.Ledger, "o2", "1", "Patient/8", 250, knownAfter: (int)(now - Charted.Morning).TotalMinutes)], null, Stop);

        var behind = (await service.TextAsync("/metrics")).Split('\n').Single(line => line.StartsWith("airwayguard_judging_behind_seconds ", StringComparison.Ordinal));

        Assert.True(double.Parse(behind.Split(' ')[1], System.Globalization.CultureInfo.InvariantCulture) >= (now - Charted.Morning).TotalSeconds, behind);
    }

    [Fact]
    public async Task WhatASilentServiceFinds_CountsAsWithheld()
    {
        await using var service = await GivenService.StartAsync("AirwayGuard:UnknownAge=strictest-band");
        await JudgeAsync(service);

        var lines = (await service.TextAsync("/metrics")).Split('\n');

        Assert.Contains("airwayguard_findings_withheld_total{check=\"vacuum-above-ceiling\"} 1", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_outbox{state=\"pending\"} 0", lines, StringComparer.Ordinal);
        Assert.Contains("airwayguard_live 0", lines, StringComparer.Ordinal);
    }

    [Fact]
    public async Task ItIsReady_OnceWhatTheFirstSweepKeptIsJudged_WhateverComesMeanwhile()
    {
        await using var service = await GivenService.StartAsync("AirwayGuard:UnknownAge=strictest-band");
        var state = new ServiceState();
        var readiness = new Readiness(service.Ledger, state);
        await service.Ledger.KeepAsync([Charted.Vacuum(service.Ledger, "o1", "1", "Patient/7", 250)], new SweepCursor(JudgeStep.FirstSweep, Charted.Morning, null), Stop);

        Assert.False(await readiness.LookAsync(false, Stop));
        Assert.Equal((false, false), (state.IsAsked, state.IsReady));
        Assert.False(await readiness.LookAsync(true, Stop));
        Assert.Equal((true, false), (state.IsAsked, state.IsReady));
        await service.SweptAsync();
        await service.Services.GetRequiredService<JudgeStep>().StepAsync(Stop);
        await service.Ledger.KeepAsync([Charted.Vacuum(service.Ledger, "o2", "1", "Patient/8", 250)], null, Stop);

        Assert.True(await readiness.LookAsync(true, Stop));
        Assert.Equal((true, true), (state.IsAsked, state.IsReady));
    }

    private static async Task<string> UnreadyAsync(GivenService service)
    {
        using var answer = await service.GetAsync("/health/ready");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync(Stop);
    }

    private static double? ValueOf(IEnumerable<string> lines, string metric) =>
        lines.SingleOrDefault(line => line.StartsWith(metric + " ", StringComparison.Ordinal)) is { } line ? double.Parse(line.Split(' ')[1], System.Globalization.CultureInfo.InvariantCulture) : null;

    // After a first sweep, long ago.
    private static async Task KeepKnownAsync(GivenService service, DateTimeOffset at) =>
        await service.Ledger.KeepAsync(
            [Charted.Vacuum(service.Ledger, "o1", "1", "Patient/7", 250, knownAfter: (int)(at - Charted.Morning).TotalMinutes)], new SweepCursor(JudgeStep.FirstSweep, Charted.Morning, null), Stop);

    private static async Task JudgeAsync(GivenService service)
    {
        await service.Ledger.KeepAsync(
            [Charted.Vacuum(service.Ledger, "o1", "1", "Patient/7", 250)], new SweepCursor(JudgeStep.FirstSweep, Charted.Morning, null), Stop);
        await service.SweptAsync();
        Assert.Equal(StepResult.DidWork, await service.Services.GetRequiredService<JudgeStep>().StepAsync(Stop));
    }
}
