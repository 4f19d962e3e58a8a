using System.Security.Cryptography;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Finds the arrival that another one repeats.</summary>
internal static class Duplicates
{
    /// <summary>
    /// With a version: the same kind, type, id and version. Without: the same body as the version that stands, or as one that
    /// became known at the same time (a body may return later, and is news then); a deletion repeats a standing deletion.
    /// What is no resource repeats nothing.
    /// </summary>
    public static Position? Find(Database database, PreparedArrival prepared, Standing standing)
    {
        if (prepared.Arrival.Version is { } version)
        {
            return WithVersion(database, prepared, version);
        }

        return prepared.Arrival.Kind == ArrivalKind.Deletion && standing.Kind == ArrivalKind.Deletion
            ? standing.Position
            : WithoutVersion(database, prepared, standing);
    }

    private static Position? WithVersion(Database database, PreparedArrival prepared, string version)
    {
        using var same = database.Prepared("SELECT position FROM arrivals WHERE row = ?1 AND kind = ?2 AND version = ?3");
        same.Bind(1, prepared.Row.Packed).Bind(2, (long)prepared.Arrival.Kind).Bind(3, version);
        return same.Step() ? new Position(same.Long(0)) : null;
    }

    private static Position? WithoutVersion(Database database, PreparedArrival prepared, Standing standing)
    {
        using var candidates = database.Prepared(
            "SELECT a.position, a.digest, b.salt FROM arrivals a JOIN bodies b ON b.position = a.position "
            + "WHERE a.row = ?1 AND a.kind = ?2 AND a.version IS NULL AND (a.position = ?3 OR a.known_at = ?4) ORDER BY a.position DESC");
        candidates.Bind(1, prepared.Row.Packed).Bind(2, (long)prepared.Arrival.Kind).Bind(3, standing.Position.Value).Bind(4, prepared.Arrival.KnownAt.UtcTicks);
        while (candidates.Step())
        {
            if (SameBody(prepared, candidates.Blob(1), candidates.Blob(2)))
            {
                return new Position(candidates.Long(0));
            }
        }

        return null;
    }

    private static bool SameBody(PreparedArrival prepared, ReadOnlySpan<byte> digest, ReadOnlySpan<byte> salt) =>
        HMACSHA256.HashData(salt, prepared.Arrival.Body.Span).AsSpan().SequenceEqual(digest);
}
