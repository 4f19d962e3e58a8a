using AirwayGuard.Core.Ports;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

public sealed class VolumeTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_hundred_thousand_rows_are_kept_and_found_with_few_names_in_memory()
    {
        var stop = TestContext.Current.CancellationToken;
        const int patients = 100, perPatient = 1000;
        await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { NamesInMemory = 1000 }, new SetClock(Charted.Morning));
        for (var round = 0; round < 100; round++)
        {
            var rows = Enumerable.Range(0, perPatient).Select(i => Charted.Vacuum(ledger, $"{round}-{i}", "1", $"Patient/{i % patients}", i, at: (round * perPatient) + i)).ToArray();
            await ledger.KeepAsync(rows, null, stop);
        }

        var newest = (await ledger.StateAsync(stop)).Newest;
        Assert.Equal(patients * perPatient, newest.Value);
        for (var patient = 0; patient < patients; patient += 33)
        {
            using var lease = await ledger.LoadAsync(ledger.Intern($"Patient/{patient}"), TimeRange.All, newest, stop);
            Assert.Equal(perPatient, lease.FactCount);
            using var window = await ledger.LoadAsync(ledger.Intern($"Patient/{patient}"), new TimeRange(Charted.Minutes(2000), Charted.Minutes(2999)), newest, stop);
            Assert.Equal(10, window.FactCount);
        }

        Assert.Equal("Observation/0-0", ledger.NameOf(ledger.Intern("Observation/0-0")));
        Assert.Single(await ledger.VersionsAsync(ledger.Intern("Observation/0-0"), stop));
    }
}
