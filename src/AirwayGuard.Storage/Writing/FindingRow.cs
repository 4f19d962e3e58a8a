using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>A finding as a row.</summary>
internal static class FindingRow
{
    public const string Select =
        "SELECT f.key, f.kind, f.check_id, f.subject, f.state, f.parent, f.count, f.first, f.latest, f.late, f.judged_at, b.sha256, f.content "
        + "FROM findings f JOIN bases b ON b.basis = f.basis ";

    public static void Save(Database database, FindingRecord finding) =>
        database.Prepared(
            "INSERT INTO findings (key, kind, check_id, subject, state, parent, count, first, latest, late, judged_at, basis, content) "
            + "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13) ON CONFLICT (key) DO UPDATE SET kind = ?2, check_id = ?3, subject = ?4, state = ?5, "
            + "parent = ?6, count = ?7, first = ?8, latest = ?9, late = ?10, judged_at = ?11, basis = ?12, content = ?13")
        .Bind(1, finding.Key).Bind(2, (long)finding.Kind).Bind(3, finding.Check).Bind(4, finding.Patient.Packed).Bind(5, (long)finding.State).Bind(6, finding.Parent)
        .Bind(7, finding.Count).Bind(8, finding.First).Bind(9, finding.Latest).Bind(10, finding.Late ? 1 : 0).Bind(11, finding.JudgedAt.Value)
        .Bind(12, Bases.Number(database, finding.BasisSha256)).Bind(13, finding.Content.Span)
        .Run();

    public static List<FindingRecord> OfPatient(Database database, Entity patient)
    {
        using var rows = database.Prepared(Select + "WHERE f.subject = ?1 ORDER BY f.first, f.key");
        return ReadAll(rows.Bind(1, patient.Packed));
    }

    /// <summary>Those whose key lies between two, both included, by key.</summary>
    public static List<FindingRecord> Between(Database database, Guid first, Guid last, int most)
    {
        using var rows = database.Prepared(Select + "WHERE f.key BETWEEN ?1 AND ?2 ORDER BY f.key LIMIT ?3");
        return ReadAll(rows.Bind(1, first).Bind(2, last).Bind(3, most));
    }

    private static List<FindingRecord> ReadAll(Statement rows)
    {
        var findings = new List<FindingRecord>();
        while (rows.Step())
        {
            findings.Add(Read(rows));
        }

        return findings;
    }

    public static FindingRecord Read(Statement row) => new(
        row.Guid(0),
        (FindingKind)row.Long(1),
        row.Text(2),
        new Entity(row.Int(3)),
        (FindingState)row.Long(4),
        row.Guid(5),
        row.Int(6),
        row.Long(7),
        row.Long(8),
        row.Long(9) != 0,
        new Position(row.Long(10)),
        row.Text(11),
        row.Blob(12).ToArray());
}
