using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Schema;
using AirwayGuard.Storage.Sql;
using AirwayGuard.TestKit.Ledger;
using Microsoft.Data.Sqlite;
using Xunit;

namespace AirwayGuard.Storage.Tests;

public sealed class OpeningTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_folder_in_use_is_refused_with_one_code_until_it_is_closed()
    {
        var first = await Open();
        var refused = await Assert.ThrowsAsync<LedgerException>(async () => await Open());
        Assert.Equal("AG1601", refused.Problem.Code.Id);
        Assert.DoesNotContain(_folder.Path, refused.Message, StringComparison.Ordinal);
        await first.DisposeAsync();

        await using var second = await Open();
        Assert.Equal(0, (await second.StateAsync(TestContext.Current.CancellationToken)).Newest.Value);
    }

    [Fact]
    public async Task A_folder_that_cannot_be_made_is_refused_with_a_code()
    {
        var file = Path.Combine(_folder.Path, "file");
        await File.WriteAllTextAsync(file, "", TestContext.Current.CancellationToken);

        var refused = await Assert.ThrowsAsync<LedgerException>(async () => await SqliteLedger.OpenAsync(Path.Combine(file, "ledger"), new SqliteLedgerOptions(), new SetClock(Charted.Morning)));

        Assert.Equal("AG1604", refused.Problem.Code.Id);
    }

    // Linux errno: 11 EAGAIN of a lock that another holds, 28 ENOSPC, 30 EROFS.
    [Theory]
    [InlineData(11, "AG1601")]
    [InlineData(28, "AG1604")]
    [InlineData(30, "AG1604")]
    public void Only_a_lock_that_another_holds_is_told_as_another_process(int error, string code) =>
        Assert.Equal(code, FolderLock.RefusalOf(new IOException("refused", error)).Code.Id);

    [Fact]
    public async Task A_damaged_file_is_refused_with_a_code_and_let_go_of()
    {
        await File.WriteAllBytesAsync(LedgerFile(), Enumerable.Repeat((byte)'x', 5000).ToArray(), TestContext.Current.CancellationToken);

        for (var i = 0; i < 2; i++)
        {
            Assert.Equal("AG1605", (await Assert.ThrowsAsync<LedgerException>(async () => await Open())).Problem.Code.Id);
        }
    }

    // A page of free space, or one that only continues a long row, has nothing that could be wrong.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_file_damaged_on_any_page_is_refused_as_damaged_and_one_too_large_to_be_looked_through_opens_or_is(bool isTooLarge)
    {
        await using (var ledger = await Open())
        {
            await ledger.BindAsync("https://ehr.example.org/fhir/", "identity", TestContext.Current.CancellationToken);
            for (var row = 0; row < 300; row++)
            {
                await ledger.KeepAsync([Charted.Vacuum(ledger, $"{row}", "1", "Patient/1", 120)], null, TestContext.Current.CancellationToken);
            }
        }

        var sound = await File.ReadAllBytesAsync(LedgerFile(), TestContext.Current.CancellationToken);
        var refused = 0;
        for (var at = 0; at < sound.Length; at += 4096)
        {
            var damaged = (byte[])sound.Clone();
            damaged.AsSpan(at, 4096).Fill((byte)'x');
            await File.WriteAllBytesAsync(LedgerFile(), damaged, TestContext.Current.CancellationToken);
            refused += await IsRefusedAsDamagedAsync(isTooLarge ? 0 : long.MaxValue) ? 1 : 0;
        }

        var pages = sound.Length / 4096;
        Assert.InRange(refused, isTooLarge ? 5 : pages * 9 / 10, isTooLarge ? pages / 2 : pages);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_ledger_whose_file_was_emptied_or_taken_away_is_not_begun_anew_in_silence(bool isEmptied)
    {
        await using (var ledger = await Open())
        {
            await ledger.BindAsync("https://ehr.example.org/fhir/", "identity", TestContext.Current.CancellationToken);
        }

        if (isEmptied)
        {
            await File.WriteAllBytesAsync(LedgerFile(), [], TestContext.Current.CancellationToken);
        }
        else
        {
            File.Delete(LedgerFile());
        }

        var refused = await Assert.ThrowsAsync<LedgerException>(async () => await Open());
        Assert.Equal(("AG1605", "The file ledger.db is empty or gone, though a ledger was kept in this folder."), (refused.Problem.Code.Id, refused.Problem.Why));
        Assert.Equal(isEmptied, File.Exists(LedgerFile()));
    }

    [Fact]
    public async Task An_empty_file_beside_what_was_written_ahead_is_not_begun_anew()
    {
        await File.WriteAllBytesAsync(LedgerFile(), [], TestContext.Current.CancellationToken);
        await File.WriteAllBytesAsync(LedgerFile() + "-wal", [1], TestContext.Current.CancellationToken);

        Assert.Equal("AG1605", (await Assert.ThrowsAsync<LedgerException>(async () => await Open())).Problem.Code.Id);
    }

    [Fact]
    public async Task What_a_process_left_that_ended_while_it_made_the_ledger_is_made_to_its_end()
    {
        await File.WriteAllBytesAsync(LedgerFile(), [], TestContext.Current.CancellationToken);
        await File.WriteAllBytesAsync(Path.Combine(_folder.Path, "ledger.lock"), [], TestContext.Current.CancellationToken);

        await using var ledger = await Open();

        Assert.Equal(0, (await ledger.StateAsync(TestContext.Current.CancellationToken)).Newest.Value);
    }

    [Theory]
    [InlineData("same", null)]
    [InlineData("gone", "The file ledger.db is not at its place any more.")]
    [InlineData("folder gone", "The file ledger.db is not at its place any more.")]
    [InlineData("text", "Another file has taken the place of ledger.db.")]
    [InlineData("older", "Another file has taken the place of ledger.db.")]
    public async Task A_file_that_is_taken_away_or_replaced_while_it_is_open_is_noticed(string what, string? why)
    {
        var (stop, place) = (TestContext.Current.CancellationToken, Path.Combine(_folder.Path, "place"));
        var file = Path.Combine(place, "ledger.db");
        await using (var before = await SqliteLedger.OpenAsync(place, new SqliteLedgerOptions(), new SetClock(Charted.Morning)))
        {
            await before.BindAsync("https://ehr.example.org/fhir/", "identity", stop);
        }

        var older = await File.ReadAllBytesAsync(file, stop);
        await using var ledger = await SqliteLedger.OpenAsync(place, new SqliteLedgerOptions(), new SetClock(Charted.Morning));
        await ledger.KeepAsync([Charted.Vacuum(ledger, "1", "1", "Patient/1", 120)], null, stop);
        Assert.Null(await ledger.PlaceAsync(stop));
        if (what != "same")
        {
            Directory.Move(place, place + "-away");
        }

        if (what is "gone" or "text" or "older")
        {
            Directory.CreateDirectory(place);
        }

        if (what is "text" or "older")
        {
            await File.WriteAllBytesAsync(file, what == "older" ? older : [.. Enumerable.Repeat((byte)'x', 5000)], stop);
        }

        var trouble = await ledger.PlaceAsync(stop);
        Assert.Equal((why, why is null ? null : "AG1608"), (trouble?.Why, trouble?.Code.Id));
    }

    // Beside the commit that meets the damage itself, whoever reads the ledger later meets an exception of SQLite's own.
    [Theory]
    [InlineData(11, "AG1605")]
    [InlineData(26, "AG1605")]
    [InlineData(8, "AG1604")]
    [InlineData(14, "AG1604")]
    [InlineData(5, null)]
    [InlineData(13, null)]
    public void What_SQLite_says_of_the_file_is_told_by_its_code(int sqlite, string? code) =>
        Assert.Equal(code, Storage.LedgerFile.TroubleOf(new InvalidOperationException("wrapped", new SqliteException("it says", sqlite)))?.Code.Id);

    [Fact]
    public async Task A_file_that_this_account_may_not_write_to_is_refused_with_a_code()
    {
        await (await Open()).DisposeAsync();
        File.Delete(Path.Combine(_folder.Path, "ledger.lock"));
        TestFolder.SetMode(LedgerFile(), UnixFileMode.UserRead | UnixFileMode.GroupRead | UnixFileMode.OtherRead);
        TestFolder.SetMode(_folder.Path, (UnixFileMode)0b111_111_111);

        var refused = await OtherAccount.Run(() => Record.ExceptionAsync(async () => await Open()).AsTask());

        var problem = Assert.IsType<LedgerException>(refused).Problem;
        Assert.Equal(("AG1604", "The file ledger.db may not be written to by this account."), (problem.Code.Id, problem.Why));
    }

    [Fact]
    public async Task A_ledger_of_an_older_version_is_brought_forward_with_all_it_holds()
    {
        await using (var old = await Open())
        {
            await old.KeepAsync([Charted.Vacuum(old, "1", "1", "Patient/1", 120)], new SweepCursor("quick", Charted.Morning, null), TestContext.Current.CancellationToken);
        }

        var next = new Migration(Migration.Embedded.Count + 1, "9999-note", "ALTER TABLE cursors ADD COLUMN note TEXT; UPDATE cursors SET note = name;");
        await using (var migrated = await Open([.. Migration.Embedded, next]))
        {
            Assert.NotNull(await migrated.CursorAsync("quick", TestContext.Current.CancellationToken));
            Assert.Equal(1, (await migrated.StateAsync(TestContext.Current.CancellationToken)).Arrivals);
        }

        Assert.Equal((next.Version, "quick"), (Version(), Scalar("SELECT note FROM cursors")));
        var refused = await Assert.ThrowsAsync<LedgerException>(async () => await Open());
        Assert.Equal("AG1603", refused.Problem.Code.Id);
    }

    [Fact]
    public async Task What_waited_in_version_3_waits_still()
    {
        await (await Open([.. Migration.Embedded.Take(3)])).DisposeAsync();
        using (var database = Sql.Database.OpenWriter(LedgerFile(), waitsForDisk: true))
        {
            database.Execute("INSERT INTO subjects (subject, since, affected_from, affected_to) VALUES (268435457, 1, 5, 6)");
            database.Execute("INSERT INTO outbox (key, kind, subject, content, revision, queued, state, attempts, not_before, fence) VALUES (x'0f0e0d0c0b0a09080706050403020100', 'flag', 268435457, '{}', 1, 1, 0, 0, 0, 0)");
            database.Execute($"INSERT INTO outbox (key, kind, subject, content, revision, queued, state, attempts, not_before, fence, settled_at) VALUES (x'010e0d0c0b0a09080706050403020100', 'flag', 268435457, '{{}}', 1, 2, 1, 1, 0, 1, {Charted.Morning.UtcTicks})");
        }

        await using var migrated = await Open();

        // One was tried then; of the other nobody knows.
        Assert.Equal(Charted.Morning, (await migrated.StateAsync(TestContext.Current.CancellationToken)).WaitingSince);
        var stop = TestContext.Current.CancellationToken;
        Assert.Equal(new TimeRange(5, 6), (await migrated.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), Charted.Morning, stop))!.Affected);
        Assert.Equal(new Guid("0f0e0d0c-0b0a-0908-0706-050403020100"), (await migrated.ClaimAsync(WorkKind.Send, TimeSpan.FromMinutes(1), Charted.Morning, stop))!.Outgoing);
    }

    [Fact]
    public async Task A_ledger_of_version_7_is_asked_questions_once_it_is_brought_forward()
    {
        var stop = TestContext.Current.CancellationToken;
        await using (var old = await Open([.. Migration.Embedded.Take(7)]))
        {
            await old.KeepAsync([Charted.Vacuum(old, "1", "1", "Patient/1", 120)], null, stop);
        }

        await using var migrated = await Open();

        Assert.True(await migrated.UseTokenAsync(new UsedToken("https://ehr.example/issuer", "1", Charted.Morning.AddMinutes(5)), Charted.Morning, stop));
        Assert.True(migrated.TryFind(EntityKind.Patient, "Patient/1"u8, out var patient));
        using var lease = await migrated.LoadAsync(patient, TimeRange.All, new Position(1), stop);
        Assert.Equal(1, lease.FactCount);
        var (card, note) = (new GivenCard(Guid.NewGuid(), "vacuum-above-ceiling", Severity.High, "{}"), new AuditNote("question-answered", "sign", "{}", default));
        await migrated.AnswerAsync([new HookAnswer("sign", "order-sign", Charted.Morning, "basis-1", patient, [card], note)], stop);
        Assert.Equal([FeedbackKept.Kept], await migrated.KeepFeedbackAsync("sign", [new CardFeedback(card.Id, CardOutcome.Accepted, Charted.Morning, "", "", "", "", [])], Charted.Morning, stop));
        Assert.Equal(["kept", "question-answered", "card-answered"], (await migrated.AuditTrailAsync(stop).ToListAsync(stop)).Select(entry => entry.What), StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_migration_that_fails_leaves_the_version_before_it()
    {
        await (await Open(Migration.Embedded[0])).DisposeAsync();
        var broken = new Migration(2, "0002-broken", "CREATE TABLE half (a INTEGER); INSERT INTO nowhere VALUES (1);");

        await Assert.ThrowsAnyAsync<Exception>(async () => await Open(Migration.Embedded[0], broken));

        Assert.Equal((1, "0"), (Version(), Scalar("SELECT count(*) FROM sqlite_schema WHERE name = 'half'")));
    }

    [Fact]
    public void Embedded_migrations_count_from_one_without_gaps() =>
        Assert.Equal(Enumerable.Range(1, Migration.Embedded.Count), Migration.Embedded.Select(migration => migration.Version));

    [Fact]
    public async Task The_file_writes_ahead_and_syncs_each_commit_and_holds_no_time_as_text()
    {
        await using var ledger = await Open();
        using var database = Database.OpenWriter(LedgerFile(), new SqliteLedgerOptions().WaitsForDisk);
        Assert.Equal(("wal", "2"), (Scalar("PRAGMA journal_mode"), ScalarOf(database, "PRAGMA synchronous")));
        Assert.Equal("0", Scalar(
            "SELECT count(*) FROM sqlite_schema t, pragma_table_info(t.name) c WHERE t.type = 'table' AND c.type = 'TEXT' AND (c.name GLOB '*_at' OR c.name GLOB '*time*' OR c.name GLOB '*until' OR c.name IN ('at', 'first', 'latest', 'as_of'))"));
    }

    private async Task<bool> IsRefusedAsDamagedAsync(long looksThroughUpTo)
    {
        try
        {
            await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { LooksThroughUpTo = looksThroughUpTo }, new SetClock(Charted.Morning));
            await ledger.BindAsync("https://ehr.example.org/fhir/", "identity", TestContext.Current.CancellationToken);
            return false;
        }
        catch (LedgerException refused)
        {
            Assert.Equal("AG1605", refused.Problem.Code.Id);
            return true;
        }
    }

    private ValueTask<SqliteLedger> Open(params Migration[] migrations) =>
        SqliteLedger.OpenAsync(_folder.Path, migrations.Length == 0 ? new SqliteLedgerOptions() : new SqliteLedgerOptions { Migrations = migrations }, new SetClock(Charted.Morning));

    private string LedgerFile() => Path.Combine(_folder.Path, "ledger.db");

    private int Version()
    {
        using var database = Database.OpenReader(LedgerFile());
        return MigrationRunner.VersionOf(database);
    }

    private string Scalar(string sql)
    {
        using var database = Database.OpenReader(LedgerFile());
        return ScalarOf(database, sql);
    }

    private static string ScalarOf(Database database, string sql)
    {
        using var row = database.Prepared(sql);
        Assert.True(row.Step());
        return row.Text(0);
    }
}
