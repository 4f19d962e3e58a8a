using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Tokens that may be used once, remembered until they are past.</summary>
internal static class UsedTokens
{
    // More than one use adds, so that what is past never piles up.
    private const int MostForgotten = 64;

    /// <returns>False where the token was used before, or is past.</returns>
    public static bool Use(Database database, UsedToken token, DateTimeOffset now)
    {
        if (token.Until < now)
        {
            return false;
        }

        var taken = database.Prepared(
            "INSERT INTO used_tokens (issuer, id, until) VALUES (?1, ?2, ?3) ON CONFLICT (issuer, id) DO UPDATE SET until = excluded.until WHERE until < ?4")
            .Bind(1, token.Issuer).Bind(2, token.Id).Bind(3, token.Until.UtcTicks).Bind(4, now.UtcTicks)
            .Run();
        database.Prepared("DELETE FROM used_tokens WHERE (issuer, id) IN (SELECT issuer, id FROM used_tokens WHERE until < ?1 ORDER BY until LIMIT ?2)")
            .Bind(1, now.UtcTicks).Bind(2, MostForgotten)
            .Run();
        return taken == 1;
    }
}
