using AirwayGuard.Storage;
using Microsoft.Data.Sqlite;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>The disk under the ledger. While it is full, a commit fails in its middle with SQLITE_FULL: where it takes a salt for what it appends.</summary>
internal sealed class SimulatedDisk(VirtualTime clock, Random chance)
{
    private const int Full = 13;
    private DateTimeOffset _fullUntil;

    /// <summary>Commits that failed.</summary>
    public int Refused { get; private set; }

    public void Fill(TimeSpan time) => _fullUntil = clock.Now + time;

    public void MakeRoom() => _fullUntil = default;

    /// <summary>For <see cref="SqliteLedgerOptions.FillSalt"/>. Called on the writer's thread while the schedule's waits for it.</summary>
    public void FillSalt(byte[] salt)
    {
        if (clock.Now < _fullUntil)
        {
            Refused++;
            throw new SqliteException("The disk is full.", Full);
        }

        chance.NextBytes(salt);
    }

    public static bool IsFull(Exception trouble) => trouble is SqliteException { SqliteErrorCode: Full };
}
