using System.Globalization;
using AirwayGuard.Sandbox.Documents;
using AirwayGuard.Sandbox.Search;
using Microsoft.Data.Sqlite;

namespace AirwayGuard.Sandbox.Storage;

/// <summary>Versions of resources, appended and never changed, with an index over the current ones.</summary>
internal sealed class ResourceStore
{
    private const string Columns = "seq, type, id, version, updated, method, body";
    private readonly Database database;
    private readonly TimeProvider clock;
    private readonly bool goesBack;
    private long newest;

    /// <param name="goesBack">Stamps follow the clock back.</param>
    public ResourceStore(Database database, TimeProvider clock, bool goesBack)
    {
        this.database = database;
        this.clock = clock;
        this.goesBack = goesBack;
        newest = database.Scalar("SELECT max(updated) FROM version");
    }

    /// <summary>The server's time in whole milliseconds; never earlier than the newest version, unless stamps go back with the clock.</summary>
    public DateTimeOffset Now()
    {
        var ticks = clock.GetUtcNow().UtcTicks;
        return new DateTimeOffset(Math.Max(goesBack ? 0 : newest, ticks - (ticks % TimeSpan.TicksPerMillisecond)), TimeSpan.Zero);
    }

    public StoredVersion? Current(string type, string id) =>
        database.Query($"SELECT {Columns} FROM version WHERE seq=(SELECT seq FROM resource WHERE type=?1 AND id=?2)", Read, type, id).SingleOrDefault();

    public StoredVersion? Version(string type, string id, int version) =>
        database.Query($"SELECT {Columns} FROM version WHERE type=?1 AND id=?2 AND version=?3", Read, type, id, version).SingleOrDefault();

    public StoredVersion? At(long sequence) =>
        database.Query($"SELECT {Columns} FROM version WHERE seq=?1", Read, sequence).SingleOrDefault();

    public long RowOf(string type, string id) => database.Scalar("SELECT rid FROM resource WHERE type=?1 AND id=?2", type, id);

    /// <summary>An id never used before for the type. Ids are opaque to clients, so a count will do (R4 resource.html#id).</summary>
    public string NextId(string type)
    {
        while (true)
        {
            database.Execute("INSERT INTO setting VALUES ('ids', 1) ON CONFLICT (name) DO UPDATE SET value = value + 1");
            var id = database.Scalar("SELECT value FROM setting WHERE name='ids'").ToString(CultureInfo.InvariantCulture);
            if (RowOf(type, id) == 0)
            {
                return id;
            }
        }
    }

    /// <summary>Appends the next version; a null document is a deletion. Must run inside a transaction.</summary>
    public StoredVersion Append(string type, string id, ResourceDocument? document, string method)
    {
        var now = Now();
        newest = now.UtcTicks;
        var (rid, before) = database.Query("SELECT rid, version FROM resource WHERE type=?1 AND id=?2",
            row => (row.GetInt64(0), row.GetInt32(1)), type, id).SingleOrDefault();
        var version = before + 1;
        var body = document?.Stamp(id, version, now) ?? [];
        database.Execute("INSERT INTO version (type, id, version, updated, method, body) VALUES (?1,?2,?3,?4,?5,?6)",
            type, id, version, now.UtcTicks, method, body);
        var sequence = database.Scalar("SELECT last_insert_rowid()");
        if (rid == 0)
        {
            database.Execute("INSERT INTO resource (type, id, version, updated, deleted, seq) VALUES (?1,?2,?3,?4,?5,?6)",
                type, id, version, now.UtcTicks, document is null ? 1 : 0, sequence);
            rid = database.Scalar("SELECT last_insert_rowid()");
        }
        else
        {
            database.Execute("UPDATE resource SET version=?1, updated=?2, deleted=?3, seq=?4 WHERE rid=?5",
                version, now.UtcTicks, document is null ? 1 : 0, sequence, rid);
            IndexWriter.Clear(database, rid);
        }

        if (document is not null)
        {
            IndexWriter.Write(database, rid, Indexer.Entries(type, document.Root));
        }

        return new StoredVersion
        {
            Type = type, Id = id, VersionId = version, LastUpdated = now, Method = method, Body = body, Sequence = sequence,
        };
    }

    /// <summary>Newest first; nulls widen to all ids and all types.</summary>
    public List<long> History(string? type, string? id, long sinceTicks) => (type, id) switch
    {
        (null, _) => database.Query("SELECT seq FROM version WHERE updated>=?1 ORDER BY seq DESC", First, sinceTicks),
        (_, null) => database.Query("SELECT seq FROM version WHERE type=?1 AND updated>=?2 ORDER BY seq DESC", First, type, sinceTicks),
        _ => database.Query("SELECT seq FROM version WHERE type=?1 AND id=?2 AND updated>=?3 ORDER BY seq DESC", First, type, id, sinceTicks),
    };

    private static long First(SqliteDataReader row) => row.GetInt64(0);

    private static StoredVersion Read(SqliteDataReader row) => new()
    {
        Sequence = row.GetInt64(0),
        Type = row.GetString(1),
        Id = row.GetString(2),
        VersionId = row.GetInt32(3),
        LastUpdated = new DateTimeOffset(row.GetInt64(4), TimeSpan.Zero),
        Method = row.GetString(5),
        Body = row.GetFieldValue<byte[]>(6),
    };
}
