using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Auditing;

/// <summary>The audit trail as rows. Salts stand apart, so that they can be purged.</summary>
internal static class AuditRows
{
    private const string Select = "SELECT chain, number, at, what, subject, detail, body_digest, previous_hash, hash FROM audit ";

    public static AuditHead Head(Database database)
    {
        using var newest = database.Prepared("SELECT chain, number, hash FROM audit ORDER BY number DESC LIMIT 1");
        return newest.Step() ? new AuditHead(newest.Long(0), newest.Long(1), newest.Text(2)) : AuditChain.Start;
    }

    public static AuditHead Append(Database database, AuditHead head, AuditNote note, DateTimeOffset at, byte[] salt)
    {
        var entry = new AuditEntry(head.Chain, head.Number + 1, at.ToUniversalTime(), note.What, note.Subject, note.Detail, AuditChain.DigestOf(note.Body.Span, salt), head.Hash, "");
        entry = entry with { Hash = AuditChain.HashOf(entry) };
        database.Prepared("INSERT INTO audit (number, chain, at, what, subject, detail, body_digest, previous_hash, hash) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)")
            .Bind(1, entry.Number).Bind(2, entry.Chain).Bind(3, entry.At.UtcTicks).Bind(4, entry.What).Bind(5, entry.Subject).Bind(6, entry.Detail)
            .Bind(7, entry.BodyDigest).Bind(8, entry.PreviousHash).Bind(9, entry.Hash)
            .Run();
        if (!note.Body.IsEmpty)
        {
            database.Prepared("INSERT INTO audit_salts (number, salt) VALUES (?1, ?2)").Bind(1, entry.Number).Bind(2, salt).Run();
        }

        return new AuditHead(entry.Chain, entry.Number, entry.Hash);
    }

    public static List<AuditEntry> After(Database database, long number, int most)
    {
        using var rows = database.Prepared(Select + "WHERE number > ?1 ORDER BY number LIMIT ?2");
        return ReadAll(rows.Bind(1, number).Bind(2, most));
    }

    /// <summary>The entries about one subject. The whole trail is read: it is asked by a person now and then.</summary>
    public static List<AuditEntry> About(Database database, string subject)
    {
        using var rows = database.Prepared(Select + "WHERE subject = ?1 ORDER BY number");
        return ReadAll(rows.Bind(1, subject));
    }

    private static List<AuditEntry> ReadAll(Statement rows)
    {
        var entries = new List<AuditEntry>();
        while (rows.Step())
        {
            entries.Add(new AuditEntry(
                rows.Long(0), rows.Long(1), new DateTimeOffset(rows.Long(2), TimeSpan.Zero), rows.Text(3), rows.Text(4), rows.Text(5), rows.Text(6), rows.Text(7), rows.Text(8)));
        }

        return entries;
    }
}
