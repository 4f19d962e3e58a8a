using System.Globalization;
using System.Text.Json;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.Benchmarks.Reliability;
using AirwayGuard.TestKit.Kills;
using AirwayGuard.Worker.Questions;

namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>Service, baseline and callers in three processes beside this one. In each run every call is made in turn, from another one on each time.</summary>
internal sealed class HooksRun(HooksOptions options, TextWriter output, TextWriter errors)
{
    private const int ShortDays = 10, Breaching = 220, Harmless = 120, WarmUps = 10_000;
    private static readonly int[] Callers = [1, 8, 64];

    public async Task RunAsync()
    {
        using var folder = new ScratchFolder();
        var place = new ServicePlace(options.Service, null, folder.Path, ServiceProcess.FreePort(), IsLive: true)
        {
            // As the service ships, but for how much one caller may ask.
            More =
            [
                "--AirwayGuard:CdsHooks:MostASecond=100000", "--AirwayGuard:Intake:QuickSeconds=30", "--AirwayGuard:Intake:WideSeconds=300",
                "--AirwayGuard:Intake:NoticeGapSeconds=1", "--AirwayGuard:Intake:PageSize=500",
            ],
        };
        await using var service = await WatchedService.StartAsync(place);
        await ChartAsync(service, place);
        using var baseline = await BaselineProcess.StartAsync();
        using var callers = await ProgramAgain.StartAsync(CallersProcess.Name);
        var table = new HookTable(Calls(place.Address, new Uri(baseline.FirstLine)));
        await WarmUpAsync(callers, table);
        for (var round = 0; round < options.Rounds; round++)
        {
            await errors.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"run {round + 1} of {options.Rounds} …"));
            await RoundAsync(callers, table, round);
        }

        await output.WriteAsync(table.ToMarkdown());
    }

    // What is asked often is compiled anew until the runtime has seen enough of it.
    private static async Task WarmUpAsync(ProgramAgain callers, HookTable table)
    {
        foreach (var call in table.Calls)
        {
            await CallAsync(callers, new CallJob(call, Callers[1], WarmUps, Callers[1]));
        }
    }

    private async Task RoundAsync(ProgramAgain callers, HookTable table, int round)
    {
        foreach (var count in Callers)
        {
            for (var i = 0; i < table.Calls.Count; i++)
            {
                var call = table.Calls[(i + round) % table.Calls.Count];
                table.Add(call, count, await CallAsync(callers, new CallJob(call, count, Math.Max(count, options.Requests / 10), options.Requests)));
            }
        }
    }

    private static async Task<CallResult> CallAsync(ProgramAgain callers, CallJob job)
    {
        var result = JsonSerializer.Deserialize<CallResult>(await callers.AskAsync(JsonSerializer.Serialize(job)))!;
        return result.Fault is { } fault ? throw new InvalidOperationException($"An answer was not the one that is measured. {fault}") : result;
    }

    private async Task ChartAsync(WatchedService service, ServicePlace place)
    {
        var now = MachineClock.Instance.GetUtcNow();
        using var http = new HttpClient();
        foreach (var stay in (HookStay[])[new("stay-short", ShortDays, now), new("stay-long", options.Days, now)])
        {
            await errors.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"charting {stay.All().Count()} rows of {stay.Days} days …"));
            await StayPoster.PostAsync(http, new Uri(place.Address, "fhir"), stay);
            await service.CaughtUpAsync(() => service.IsKeptAsync(stay.LastRow), isSent: true);
        }

        await errors.WriteLineAsync("waiting until the service is at rest …");
        await service.QuietAsync();
    }

    private static IReadOnlyList<HookCall> Calls(Uri service, Uri baseline)
    {
        var sign = new Uri(service, "cds-services/" + HookServices.OrderSign);
        return
        [
            new HookCall(HookTable.Baseline, new Uri(baseline, "echo"), HookCall.OrderSign("stay-short", Breaching), null),
            new HookCall(HookTable.Kept, new Uri(baseline, "kept"), HookCall.OrderSign("stay-short", Breaching), null),
            new HookCall(HookTable.Short, sign, HookCall.OrderSign("stay-short", Breaching), Cards: true),
            new HookCall(HookTable.Long, sign, HookCall.OrderSign("stay-long", Breaching), Cards: true),
            new HookCall(HookTable.ShortPass, sign, HookCall.OrderSign("stay-short", Harmless), Cards: false),
            new HookCall(HookTable.LongPass, sign, HookCall.OrderSign("stay-long", Harmless), Cards: false),
        ];
    }
}
