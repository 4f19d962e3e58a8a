using System.Globalization;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Simulation;

namespace AirwayGuard.TestKit.Kills;

/// <summary>
/// The service's last life, in which it comes to rest, beside one with an empty folder that writes nothing and judges all at once; and
/// what both come to.
/// </summary>
internal sealed class Ending(ServicePlace place, ServicePlace anew, TimeProvider clock)
{
    private static readonly TimeSpan Often = TimeSpan.FromMilliseconds(200), LongestRest = TimeSpan.FromMinutes(4);
    private readonly List<string> _troubles = [];

    /// <summary>Until nothing waits in either, nothing changes any more, and nothing falls due soon; four minutes at the most.</summary>
    public async Task RestAsync(CancellationToken stop)
    {
        using var service = ServiceProcess.Start(place, clock);
        using var other = ServiceProcess.Start(anew, clock);
        if (await service.IsReadyAsync() && await other.IsReadyAsync())
        {
            await using var one = await Stillness.OfAsync(place, clock);
            await using var two = await Stillness.OfAsync(anew, clock);
            var began = clock.GetTimestamp();
            while (!(await one.HoldsAsync() & await two.HoldsAsync()))
            {
                if (clock.GetElapsedTime(began) > LongestRest || service.HasEnded || other.HasEnded)
                {
                    _troubles.Add($"It does not come to rest: {one}; judged at once {two}");
                    break;
                }

                await Task.Delay(Often, clock, stop);
            }
        }
        else
        {
            _troubles.Add("The last start is not ready in time.");
        }

        foreach (var process in new[] { service, other })
        {
            var exit = await process.StopAsync();
            if (exit != 0)
            {
                _troubles.Add(string.Create(CultureInfo.InvariantCulture, $"Asked to stop, it ends with {exit?.ToString(CultureInfo.InvariantCulture) ?? "nothing"}."));
            }

            _troubles.AddRange(process.Faults);
        }
    }

    public async Task<KillOutcome> OutcomeAsync(KillSettings settings, ServerContents server, Poster poster, Lives lives)
    {
        var broken = new List<string>([.. lives.Troubles, .. _troubles]);
        var (exit, said) = await ServiceProcess.VerbAsync(settings.Service, "audit", "verify", "--data", place.Folder, "--anchors", place.Server!.AbsoluteUri);
        if (exit != 0 || !said.StartsWith("sound", StringComparison.Ordinal))
        {
            broken.Add("audit verify: " + said);
        }

        await using var ledger = await SqliteLedger.OpenAsync(place.LedgerFolder, new SqliteLedgerOptions(), clock);
        await using var atOnce = await SqliteLedger.OpenAsync(anew.LedgerFolder, new SqliteLedgerOptions(), clock);
        var recorded = await RecordedFinding.AllAsync(ledger, poster.Patients);
        var expected = await RecordedFinding.AllAsync(atOnce, poster.Patients);
        broken.AddRange(await ArrivalChecks.FaultsAsync(ledger, server, poster.Patients, lives.Heads));
        broken.AddRange(WrittenChecks.Faults(server, recorded, hasTwoWriters: false, hasRaced: false));
        broken.AddRange(server.Hands.Faults());
        broken.AddRange(FindingsComparison.Differences(recorded, expected, "judged at once", new HandScope(server.Hands.Marks, recorded, expected), ignoreClosing: true));
        return new KillOutcome(settings, lives.Schedule, broken)
        {
            Rows = poster.Rows, PersonsActs = server.Hands.Marks.Count, Findings = recorded.Count, DueTimes = await DueTimesAsync(ledger), LastDone = lives.LastDone,
        };
    }

    private static async Task<int> DueTimesAsync(SqliteLedger ledger)
    {
        var (newest, due) = ((await ledger.StateAsync(CancellationToken.None)).Newest, 0);
        for (var at = 1L; at <= newest.Value; at++)
        {
            due += (await ledger.ArrivalAsync(new(at), CancellationToken.None))?.Kind == ArrivalKind.DueTime ? 1 : 0;
        }

        return due;
    }
}
