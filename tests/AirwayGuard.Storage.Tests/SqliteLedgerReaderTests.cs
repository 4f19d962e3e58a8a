using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Schema;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

/// <summary>A ledger read beside whoever writes it.</summary>
public sealed class SqliteLedgerReaderTests : IDisposable
{
    private static readonly Guid Key = new("0f0e0d0c-0b0a-0908-0706-050403020100"), Other = new("0f0e0d0c-0b0a-0908-0706-0504030201ff");

    private readonly TestFolder _folder = new();
    private readonly SetClock _clock = new(Charted.Morning);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task What_another_writes_is_read_while_it_holds_the_folder()
    {
        await using var ledger = await OpenAsync();
        await using var reader = SqliteLedgerReader.Open(_folder.Path);

        await JudgeAsync(ledger);

        var found = Assert.Single(await reader.FindAsync("0f0e0d0c", 5, Stop), finding => finding.Key == Key);
        Assert.Equal("Patient/1", reader.NameOf(found.Patient));
        Assert.Equal([(1L, Charted.Morning.UtcTicks)], (await reader.JudgedAsync(found.Patient, Stop)).Select(point => (point.UpTo.Value, point.AsOf)));
        Assert.Equal(["finding-raise"], (await reader.AuditOfAsync(Key.ToString(), Stop)).Select(entry => entry.What), StringComparer.Ordinal);
        using var lease = await reader.LoadAsync(found.Patient, TimeRange.All, found.JudgedAt, Stop);
        Assert.Equal(1, lease.FactCount);
    }

    [Fact]
    public async Task The_document_of_each_rule_set_that_was_in_force_is_read_as_it_was()
    {
        await using var ledger = await OpenAsync();
        await ledger.AdoptBasisAsync("basis-1", new RuleDocument("aa", "first"u8.ToArray()), Charted.Morning, Stop);
        await ledger.AdoptBasisAsync("basis-2", new RuleDocument("bb", "second"u8.ToArray()), Charted.Morning, Stop);
        await ledger.AdoptBasisAsync("basis-1", new RuleDocument("aa", "first"u8.ToArray()), Charted.Morning, Stop);
        await using var reader = SqliteLedgerReader.Open(_folder.Path);

        Assert.Equal("first"u8.ToArray(), (await reader.RulesAsync("aa", Stop))!.Utf8.ToArray());
        Assert.Equal("second"u8.ToArray(), (await reader.RulesAsync("bb", Stop))!.Utf8.ToArray());
        Assert.Null(await reader.RulesAsync("cc", Stop));
    }

    [Theory]
    [InlineData("0f0e", 2)]
    [InlineData("0f0e0d0c0b0a09080706050403020100", 1)]
    [InlineData("0F0E0D0C0B0A09080706050403020100", 1)]
    [InlineData("0f0f", 0)]
    public async Task A_key_is_found_by_its_first_digits(string digits, int expected)
    {
        await using var ledger = await OpenAsync();
        await JudgeAsync(ledger);
        await using var reader = SqliteLedgerReader.Open(_folder.Path);

        Assert.Equal(expected, (await reader.FindAsync(digits, 5, Stop)).Count);
        Assert.Equal(Math.Min(expected, 1), (await reader.FindAsync(digits, 1, Stop)).Count);
    }

    [Fact]
    public async Task A_ledger_at_rest_is_read_and_can_be_opened_afterwards()
    {
        await using (var ledger = await OpenAsync())
        {
            await JudgeAsync(ledger);
        }

        await using (var reader = SqliteLedgerReader.Open(_folder.Path))
        {
            Assert.Equal(2, (await reader.FindAsync("0f0e", 5, Stop)).Count);
        }

        await using var again = await OpenAsync();
        Assert.Equal(1, (await again.StateAsync(Stop)).Arrivals);
    }

    [Fact]
    public void A_folder_without_a_ledger_is_refused_and_left_empty()
    {
        Assert.Equal("AG1606", Refused());
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path));
    }

    [Fact]
    public async Task A_ledger_of_another_version_is_refused_with_a_code()
    {
        await (await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { Migrations = [Migration.Embedded[0]] }, _clock)).DisposeAsync();
        Assert.Equal("AG1607", Refused());
        var newer = new Migration(Migration.Embedded.Count + 1, "9999-newer", "CREATE TABLE newer (a INTEGER) STRICT;");
        await (await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { Migrations = [.. Migration.Embedded, newer] }, _clock)).DisposeAsync();
        Assert.Equal("AG1603", Refused());
    }

    [Theory]
    [InlineData("xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx")]
    [InlineData("")]
    public async Task What_is_no_ledger_is_refused_with_a_code(string content)
    {
        await File.WriteAllTextAsync(Path.Combine(_folder.Path, "ledger.db"), content, Stop);

        Assert.Equal("AG1605", Refused());
    }

    [Fact]
    public async Task What_was_parked_in_version_1_keeps_its_number_and_time()
    {
        await using (var old = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { Migrations = [Migration.Embedded[0]] }, _clock))
        {
            using var database = Sql.Database.OpenWriter(Path.Combine(_folder.Path, "ledger.db"), waitsForDisk: true);
            database.Execute($"INSERT INTO parked (number, code, place, at) VALUES (7, 'AG4999', 'Observation', {Charted.Minutes(3)})");
        }

        await (await OpenAsync()).DisposeAsync();
        await using var reader = SqliteLedgerReader.Open(_folder.Path);

        var entry = Assert.Single(await reader.ParkedAsync(Stop));
        Assert.Equal((7, Charted.Morning.AddMinutes(3), Charted.Morning.AddMinutes(3)), (entry.Number, entry.First, entry.Item.At));
    }

    private string Refused() => Assert.Throws<LedgerException>(() => SqliteLedgerReader.Open(_folder.Path)).Problem.Code.Id;

    private ValueTask<SqliteLedger> OpenAsync() => SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions(), _clock);

    private async Task JudgeAsync(SqliteLedger ledger)
    {
        await ledger.KeepAsync([Charted.Vacuum(ledger, "1", "1", "Patient/1", 220)], null, Stop);
        var work = (await ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _clock.Now, Stop))!;
        FindingRecord Of(Guid key) => new(
            key, FindingKind.Occurrence, "vacuum-above-ceiling", work.Patient, FindingState.Open, Guid.Empty, 1, 0, 0, false, work.UpTo, "basis-1", "{}"u8.ToArray());
        var decision = new Decision(
            work.Patient, work.UpTo, _clock.Now.UtcTicks, work.Fence, "basis-1", [Of(Key), Of(Other)], [], [], [new AuditNote("finding-raise", Key.ToString(), "{}", default)]);
        Assert.Equal(Committed.Yes, await ledger.DecideAsync(decision, Stop));
    }
}
