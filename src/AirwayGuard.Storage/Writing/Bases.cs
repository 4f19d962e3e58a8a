using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Bases by number: their hashes stand on every finding and every judged point.</summary>
internal static class Bases
{
    public static long Number(Database database, string sha256)
    {
        database.Prepared("INSERT INTO bases (sha256) VALUES (?1) ON CONFLICT DO NOTHING").Bind(1, sha256).Run();
        using var number = database.Prepared("SELECT basis FROM bases WHERE sha256 = ?1");
        number.Bind(1, sha256).Step();
        return number.Long(0);
    }
}
