using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Kills;

namespace AirwayGuard.Benchmarks.Reliability;

/// <summary>The built service in a process of its own, with its ledger looked at from here.</summary>
internal sealed class WatchedService : IAsyncDisposable
{
    private static readonly TimeSpan Often = TimeSpan.FromMilliseconds(100), Longest = TimeSpan.FromMinutes(20);

    private readonly ServiceProcess _process;
    private readonly SqliteLedger _ledger;

    private WatchedService(ServiceProcess process, SqliteLedger ledger) => (_process, _ledger) = (process, ledger);

    /// <exception cref="InvalidOperationException">It ended, or is not ready in time.</exception>
    public static async Task<WatchedService> StartAsync(ServicePlace place, bool waits = true)
    {
        var process = ServiceProcess.Start(place, MachineClock.Instance);
        if (waits && !await process.IsReadyAsync())
        {
            process.Dispose();
            throw new InvalidOperationException("The service does not get ready.");
        }

        return new WatchedService(process, await SqliteLedger.OpenAsync(place.LedgerFolder, new SqliteLedgerOptions { Shared = true }, MachineClock.Instance));
    }

    public ValueTask<LedgerState> StateAsync() => _ledger.StateAsync(CancellationToken.None);

    /// <summary>Waits until so many more arrivals are kept than were before, all of it is judged, and where it says so all messages are sent.</summary>
    /// <exception cref="InvalidOperationException">It does not come to that in twenty minutes.</exception>
    public async Task CaughtUpAsync(Func<Task<bool>> isKept, bool isSent)
    {
        var began = MachineClock.Instance.GetTimestamp();
        while (!(await StateAsync() is { PatientsWaiting: 0 } state && (!isSent || state.Pending + state.Unknown == 0) && await isKept()))
        {
            if (_process.HasEnded || MachineClock.Instance.GetElapsedTime(began) > Longest)
            {
                throw new InvalidOperationException("The service does not catch up.");
            }

            await Task.Delay(Often, MachineClock.Instance);
        }
    }

    /// <summary>Waits until it has next to nothing to do for two seconds: its own FHIR server tells it of each row long after a sweep has found it.</summary>
    /// <exception cref="InvalidOperationException">It does not come to that in twenty minutes.</exception>
    public async Task QuietAsync()
    {
        var (began, span) = (MachineClock.Instance.GetTimestamp(), TimeSpan.FromSeconds(2));
        for (var worked = TimeSpan.MinValue; worked < TimeSpan.Zero || worked > span * 0.02;)
        {
            if (_process.HasEnded || MachineClock.Instance.GetElapsedTime(began) > Longest)
            {
                throw new InvalidOperationException("The service does not come to rest.");
            }

            var before = _process.Worked;
            await Task.Delay(span, MachineClock.Instance);
            worked = _process.Worked - before;
        }
    }

    /// <summary>Whether a version of the row is kept.</summary>
    /// <param name="row">As a reference names it.</param>
    public async Task<bool> IsKeptAsync(string row) =>
        _ledger.TryFind(EntityKind.Row, Encoding.UTF8.GetBytes(row), out var entity) && await _ledger.StandingVersionAsync(entity, CancellationToken.None) is not null;

    /// <summary>Breaches recorded of these patients by one check.</summary>
    public async Task<int> FoundAsync(IEnumerable<string> patients, string check)
    {
        var found = 0;
        foreach (var patient in patients)
        {
            var entity = _ledger.Entities.Intern(EntityKind.Patient, Encoding.UTF8.GetBytes("Patient/" + patient));
            found += (await _ledger.FindingsAsync(entity, CancellationToken.None)).Count(one => one.Kind == FindingKind.Occurrence && one.Check == check);
        }

        return found;
    }

    public async ValueTask DisposeAsync()
    {
        await _ledger.DisposeAsync();
        await _process.StopAsync();
        _process.Dispose();
    }
}
