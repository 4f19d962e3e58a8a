using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Auditing;
using AirwayGuard.Storage.Entities;
using AirwayGuard.Storage.Reading;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>What verbs work on inside one commit: the connection, the next position and the head of the audit chain.</summary>
internal sealed class WriteSession(Database database, EntityStore entities, TimeProvider clock, Action<byte[]> fillSalt, HeldReads? held)
{
    private readonly List<KnownEntity> _saved = [];
    private readonly HashSet<Entity> _touched = [];
    private KeyValuePair<Entity, string>[] _given = [];
    private (Position Newest, AuditHead Head, int Saved) _before;
    private AuditHead _head = AuditChain.Start;
    private bool _open;
    private int _turn;

    public Database Database => database;

    public Position Newest { get; private set; }

    public DateTimeOffset Now => clock.GetUtcNow();

    public AuditHead Head => _head;

    public void Begin()
    {
        _saved.Clear();
        _touched.Clear();
        // Before the file is locked: whoever gives names holds the names and may wait for the file.
        _given = entities.TakeGiven();
        database.Execute("BEGIN IMMEDIATE");
        _open = true;
        // Read anew each time: another ledger object may have written to the same file.
        using (var newest = database.Prepared("SELECT coalesce(max(position), 0) FROM arrivals"))
        {
            newest.Step();
            Newest = new Position(newest.Long(0));
        }

        _head = AuditRows.Head(database);
        foreach (var (entity, identity) in _given)
        {
            database.Prepared("UPDATE entities SET identity = ?2 WHERE entity = ?1 AND identity IS NULL").Bind(1, entity.Packed).Bind(2, identity).Run();
        }
    }

    public void Commit()
    {
        database.Execute("COMMIT");
        _open = false;
        held?.Change(_touched);
        entities.Saved(_saved);
    }

    /// <summary>Undoes the whole commit, if there is one open.</summary>
    public void Abandon()
    {
        // Whether a commit that failed is on the disk or not is the disk's word.
        held?.Clear();
        if (_open)
        {
            _open = false;
            if (!database.IsOutside)
            {
                database.Execute("ROLLBACK");
            }
        }

        entities.HandBack(_given);
    }

    /// <summary>What the commit says of these differs from what the file said.</summary>
    public void Touch(IEnumerable<Entity> entities) => _touched.UnionWith(entities);

    /// <summary>Marks where one verb begins.</summary>
    public void Save()
    {
        _before = (Newest, _head, _saved.Count);
        database.Prepared("SAVEPOINT verb").Run();
    }

    public void Release() => database.Prepared("RELEASE verb").Run();

    /// <summary>Undoes the verb that began at the last <see cref="Save"/>.</summary>
    /// <returns>False where the database undid the whole commit by itself, as it may when the disk is full.</returns>
    public bool TryUndo()
    {
        if (database.IsOutside)
        {
            return false;
        }

        database.Prepared("ROLLBACK TO verb").Run();
        Release();
        (Newest, _head, var saved) = _before;
        _saved.RemoveRange(saved, _saved.Count - saved);
        return true;
    }

    /// <summary>Counts the claims to judge since the ledger was opened, so that they can be shared out.</summary>
    public int NextTurn() => _turn = (_turn + 1) & int.MaxValue;

    public Position NextPosition() => Newest = new Position(Newest.Value + 1);

    public byte[] NewSalt()
    {
        var salt = new byte[AuditChain.SaltLength];
        fillSalt(salt);
        return salt;
    }

    /// <summary>The saved name of an entity.</summary>
    public string NameOf(Entity entity)
    {
        using var name = database.Prepared("SELECT name FROM entities WHERE entity = ?1");
        return name.Bind(1, entity.Packed).Step() ? name.Text(0) : "";
    }

    public void SaveNames(IEnumerable<KnownEntity> names, Position firstKnown)
    {
        foreach (var known in names)
        {
            EntityStore.Save(database, known, firstKnown.Value);
            _saved.Add(known);
        }
    }

    public AuditHead Audit(AuditNote note, DateTimeOffset at) => _head = AuditRows.Append(database, _head, note, at, NewSalt());
}
