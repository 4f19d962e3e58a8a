using System.Security.Cryptography;
using AirwayGuard.Storage.Schema;

namespace AirwayGuard.Storage;

/// <summary>How a ledger is opened.</summary>
public sealed record SqliteLedgerOptions
{
    /// <summary>
    /// Other ledger objects may be open on the same folder: no folder lock is taken, and names are saved as they are given
    /// rather than with the commit that first uses them. Default false.
    /// </summary>
    public bool Shared { get; init; }

    /// <summary>Most verbs that go to disk in one commit. Default 512, range 1 to 10,000.</summary>
    public int MostVerbsPerCommit { get; init; } = 512;

    /// <summary>Names of rows, acts and the like kept in memory; those forgotten are looked up again. Default 200,000, range 100 to 10,000,000.</summary>
    public int NamesInMemory { get; init; } = 200_000;

    /// <summary>
    /// Bytes up to which the whole file is looked through when it is opened (about a second for each few hundred million). Of a larger
    /// one only the tables that all judging and sending goes by are; the rest as it is read. Default 512 MiB, range 0 upwards.
    /// </summary>
    public long LooksThroughUpTo { get; init; } = 512L << 20;

    /// <summary>Fills a salt with random bytes. Default: the system's cryptographic source; a simulator hands in its own.</summary>
    public Action<byte[]> FillSalt { get; init; } = static salt => RandomNumberGenerator.Fill(salt);

    /// <summary>A commit is acknowledged once it is on the disk. Without it an ended process still loses nothing, a cut of power does: for tests only.</summary>
    internal bool WaitsForDisk { get; init; } = true;

    internal IReadOnlyList<Migration> Migrations { get; init; } = Migration.Embedded;

    internal static void Check(SqliteLedgerOptions options)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(options.MostVerbsPerCommit, 1, nameof(options));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(options.MostVerbsPerCommit, 10_000, nameof(options));
        ArgumentOutOfRangeException.ThrowIfNegative(options.LooksThroughUpTo, nameof(options));
        ArgumentOutOfRangeException.ThrowIfLessThan(options.NamesInMemory, 100, nameof(options));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(options.NamesInMemory, 10_000_000, nameof(options));
    }
}
