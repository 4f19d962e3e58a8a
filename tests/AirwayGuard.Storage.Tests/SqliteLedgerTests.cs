using AirwayGuard.Core.Ports;
using AirwayGuard.TestKit.Ledger;

namespace AirwayGuard.Storage.Tests;

/// <summary>The contract of every store, kept by the one on SQLite.</summary>
public sealed class SqliteLedgerTests : LedgerContract
{
    private readonly TestFolder _folder = new();

    protected override async ValueTask<ILedger> OpenAsync(bool shared) =>
        await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { Shared = shared, WaitsForDisk = false }, new SetClock(Now));

    protected override ILedgerReader OpenReader() => SqliteLedgerReader.Open(_folder.Path);

    protected override void CleanUp() => _folder.Dispose();
}
