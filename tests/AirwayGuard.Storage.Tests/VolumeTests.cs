using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

public sealed class VolumeTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_hundred_thousand_values_are_kept_and_found_with_few_names_in_memory()
    {
        var stop = TestContext.Current.CancellationToken;
        const int patients = 100, rounds = 20, rowsPerRound = 1000, valuesPerRow = 5;
        await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { NamesInMemory = 1000 }, new SetClock(Charted.Morning));
        for (var round = 0; round < rounds; round++)
        {
            await ledger.KeepAsync([.. Enumerable.Range(0, rowsPerRound).Select(i => Row(ledger, round, i))], null, stop);
        }

        var newest = (await ledger.StateAsync(stop)).Newest;
        Assert.Equal(rounds * rowsPerRound, newest.Value);
        var found = 0;
        for (var patient = 0; patient < patients; patient++)
        {
            using var lease = await ledger.LoadAsync(ledger.Intern($"Patient/{patient}"), TimeRange.All, newest, stop);
            found += lease.FactCount;
            using var window = await ledger.LoadAsync(ledger.Intern($"Patient/{patient}"), new TimeRange(Charted.Minutes(2000), Charted.Minutes(2999)), newest, stop);
            Assert.Equal(10 * valuesPerRow, window.FactCount);
        }

        Assert.Equal(100_000, found);
        Assert.Equal("Observation/0-0", ledger.NameOf(ledger.Intern("Observation/0-0")));
        Assert.Single(await ledger.VersionsAsync(ledger.Intern("Observation/0-0"), stop));

        static ReadArrival Row(SqliteLedger ledger, int round, int i)
        {
            var row = Charted.Vacuum(ledger, $"{round}-{i}", "1", $"Patient/{i % patients}", i, at: (round * rowsPerRound) + i);
            for (ushort ordinal = 1; ordinal < valuesPerRow; ordinal++)
            {
                row.Reading.Facts.Add(row.Reading.Facts[0] with { Id = new FactId(default, ordinal) });
            }

            return row;
        }
    }
}
