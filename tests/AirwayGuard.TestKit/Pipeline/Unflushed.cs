using AirwayGuard.Sandbox;
using AirwayGuard.Storage;

namespace AirwayGuard.TestKit.Pipeline;

/// <summary>Stores that do not wait for the disk: for tests of anything but that wait. An ended process still loses nothing.</summary>
public static class Unflushed
{
    public static SqliteLedgerOptions Ledger { get; } = new() { WaitsForDisk = false };

    public static SandboxOptions Sandbox(string folder) => new() { Folder = folder, WaitsForDisk = false };
}
