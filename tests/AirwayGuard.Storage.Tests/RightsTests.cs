using AirwayGuard.Core.Ports;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

/// <summary>What a ledger makes is for its own account alone, since it holds patient data; what is there already is left as it is.</summary>
public sealed class RightsTests : IDisposable
{
    private const UnixFileMode Own = UnixFileMode.UserRead | UnixFileMode.UserWrite;
    private const UnixFileMode OwnFolder = Own | UnixFileMode.UserExecute;
    private const UnixFileMode ForAll = OwnFolder | UnixFileMode.GroupRead | UnixFileMode.GroupExecute | UnixFileMode.OtherRead | UnixFileMode.OtherExecute;

    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Folders_and_files_that_are_made_are_for_the_services_account_alone()
    {
        await using var ledger = await OpenAsync(Of("data/ledger"));
        await ledger.KeepAsync([Charted.Vacuum(ledger, "1", "1", "Patient/1", 120)], new SweepCursor("quick", Charted.Morning, null), TestContext.Current.CancellationToken);

        Assert.Equal([OwnFolder, OwnFolder], new[] { Of("data"), Of("data/ledger") }.Select(ModeOf));
        Assert.Equal(
            [("ledger.db", Own), ("ledger.db-shm", Own), ("ledger.db-wal", Own), ("ledger.lock", Own)],
            Directory.GetFiles(Of("data/ledger")).Order(StringComparer.Ordinal).Select(file => (Path.GetFileName(file), ModeOf(file))));
        Assert.False(LedgerFile.IsOpenToOthers(Of("data/ledger")));
    }

    [Fact]
    public async Task What_is_there_keeps_its_rights_and_is_known_to_be_open_to_others()
    {
        await (await OpenAsync(Of("ledger"))).DisposeAsync();
        TestFolder.SetMode(Of("ledger"), ForAll);
        TestFolder.SetMode(Of("ledger/ledger.db"), Own | UnixFileMode.OtherRead);

        await using var ledger = await OpenAsync(Of("ledger"));

        Assert.Equal((ForAll, Own | UnixFileMode.OtherRead), (ModeOf(Of("ledger")), ModeOf(Of("ledger/ledger.db"))));
        Assert.False(LedgerFile.IsOpenToOthers(Of("ledger")));
        TestFolder.SetMode(_folder.Path, ForAll);
        Assert.True(LedgerFile.IsOpenToOthers(Of("ledger")));
    }

    // Whoever may not enter the folder, or the one it lies in, reads nothing in it.
    [Theory]
    [InlineData("711", "755", true)]
    [InlineData("755", "711", true)]
    [InlineData("750", "750", true)]
    [InlineData("705", "705", true)]
    [InlineData("750", "705", true)]
    [InlineData("755", "744", true)]
    [InlineData("700", "777", false)]
    [InlineData("777", "700", false)]
    public void A_folder_is_open_where_others_come_through_to_it(string outer, string inner, bool isOpen)
    {
        Directory.CreateDirectory(Of("ledger"));
        TestFolder.SetMode(Of("ledger"), ModeOfDigits(inner));
        TestFolder.SetMode(_folder.Path, ModeOfDigits(outer));

        Assert.Equal(isOpen, LedgerFile.IsOpenToOthers(Of("ledger")));
    }

    private static UnixFileMode ModeOfDigits(string octal) => (UnixFileMode)Convert.ToInt32(octal, 8);

    private static ValueTask<SqliteLedger> OpenAsync(string folder) => SqliteLedger.OpenAsync(folder, new SqliteLedgerOptions(), new SetClock(Charted.Morning));

    private string Of(string name) => Path.Combine(_folder.Path, name);

    private static UnixFileMode ModeOf(string path) => OperatingSystem.IsWindows() ? throw new PlatformNotSupportedException() : File.GetUnixFileMode(path);
}
