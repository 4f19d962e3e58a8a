using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Rule sets' documents, kept for good, so that what was judged by one can be judged again.</summary>
internal static class Documents
{
    public static void Keep(Database database, RuleDocument rules) =>
        database.Prepared("INSERT INTO rule_sets (sha256, document) VALUES (?1, ?2) ON CONFLICT DO NOTHING").Bind(1, rules.Sha256).Bind(2, rules.Utf8.Span).Run();

    public static RuleDocument? Read(Database database, string sha256)
    {
        using var row = database.Prepared("SELECT document FROM rule_sets WHERE sha256 = ?1");
        return row.Bind(1, sha256).Step() ? new RuleDocument(sha256, row.Blob(0).ToArray()) : null;
    }
}
