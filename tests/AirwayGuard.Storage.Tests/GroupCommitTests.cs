using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

public sealed class GroupCommitTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_verb_that_fails_is_undone_alone()
    {
        var stop = TestContext.Current.CancellationToken;
        await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions(), new SetClock(Charted.Morning));
        var verbs = Enumerable.Range(0, 40).Select(i =>
        {
            var row = Charted.Vacuum(ledger, $"{i}", "1", $"Patient/{i}", i);
            if (i % 4 == 0)
            {
                row.Reading.Facts.Add(row.Reading.Facts[0]);
            }

            return ledger.KeepAsync([Charted.Vacuum(ledger, $"with-{i}", "1", $"Patient/{i}", i), row], null, stop).AsTask();
        }).ToArray();

        await Task.WhenAll(verbs).ContinueWith(_ => { }, TaskScheduler.Default);

        Assert.All(verbs.Index(), verb => Assert.Equal(verb.Index % 4 == 0, verb.Item.IsFaulted));
        var kept = await Task.WhenAll(verbs.Where(verb => !verb.IsFaulted));
        Assert.Equal(Enumerable.Range(1, 60).Select(i => (long)i), kept.SelectMany(k => k).Select(k => k.Position.Value).Order());
        Assert.Equal(60, (await ledger.StateAsync(stop)).Arrivals);
        Assert.Equal(30, (await ledger.AuditTrailAsync(stop).ToListAsync(stop)).Count);
        Assert.Equal("Patient/0", ledger.NameOf(ledger.Intern("Patient/0")));
    }

    [Fact]
    public async Task A_verb_called_off_before_its_commit_keeps_nothing()
    {
        await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions(), new SetClock(Charted.Morning));

        await Assert.ThrowsAnyAsync<OperationCanceledException>(async () =>
            await ledger.KeepAsync([Charted.Vacuum(ledger, "1", "1", "Patient/1", 1)], null, new CancellationToken(canceled: true)));

        Assert.Equal(0, (await ledger.StateAsync(TestContext.Current.CancellationToken)).Arrivals);
    }

    [Fact]
    public async Task Closing_finishes_what_was_asked_for()
    {
        var stop = TestContext.Current.CancellationToken;
        var options = new SqliteLedgerOptions { MostVerbsPerCommit = 2 };
        var ledger = await SqliteLedger.OpenAsync(_folder.Path, options, new SetClock(Charted.Morning));
        var verbs = Enumerable.Range(0, 30).Select(i => ledger.KeepAsync([Charted.Vacuum(ledger, $"{i}", "1", "Patient/1", i)], null, stop).AsTask()).ToArray();

        await ledger.DisposeAsync();

        // Each was answered by then; whoever asked hears of it when a thread is free.
        await Task.WhenAll(verbs).WaitAsync(TimeSpan.FromSeconds(30), stop);
        await using var again = await SqliteLedger.OpenAsync(_folder.Path, options, new SetClock(Charted.Morning));
        Assert.Equal(30, (await again.StateAsync(stop)).Arrivals);
    }
}
