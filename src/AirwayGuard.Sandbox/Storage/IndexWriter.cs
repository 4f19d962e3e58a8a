namespace AirwayGuard.Sandbox.Storage;

/// <summary>Writes and clears the index rows of one resource.</summary>
internal static class IndexWriter
{
    public static void Clear(Database database, long rid)
    {
        database.Execute("DELETE FROM index_token WHERE rid=?1", rid);
        database.Execute("DELETE FROM index_reference WHERE rid=?1", rid);
        database.Execute("DELETE FROM index_date WHERE rid=?1", rid);
        database.Execute("DELETE FROM index_string WHERE rid=?1", rid);
        database.Execute("DELETE FROM index_number WHERE rid=?1", rid);
    }

    public static void Write(Database database, long rid, IEnumerable<IndexEntry> entries)
    {
        foreach (var entry in entries)
        {
            _ = entry switch
            {
                TokenEntry t => database.Execute("INSERT INTO index_token VALUES (?1,?2,?3,?4)", t.Key, t.Code, t.System, rid),
                ReferenceEntry r => database.Execute("INSERT INTO index_reference VALUES (?1,?2,?3,?4,?5)", r.Key, r.Target, r.Type, r.Base, rid),
                DateEntry d => database.Execute("INSERT INTO index_date VALUES (?1,?2,?3,?4)", d.Key, d.Low, d.High, rid),
                StringEntry s => database.Execute("INSERT INTO index_string VALUES (?1,?2,?3,?4)", s.Key, s.Folded, s.Exact, rid),
                NumberEntry n => database.Execute("INSERT INTO index_number VALUES (?1,?2,?3,?4,?5,?6)", n.Key, n.Value, n.System, n.Code, n.Unit, rid),
                _ => throw new InvalidOperationException("An index entry of an unknown kind."),
            };
        }
    }
}
