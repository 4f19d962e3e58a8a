using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>An arrival as rows: what it is, and apart from that its body and salt, which can be purged.</summary>
internal static class ArrivalRow
{
    public static void Insert(Database database, Position position, PreparedArrival prepared)
    {
        var arrival = prepared.Arrival;
        database.Prepared("INSERT INTO arrivals (position, kind, source, type, id, version, row, known_at, known_by, digest) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)")
            .Bind(1, position.Value).Bind(2, (long)arrival.Kind).Bind(3, arrival.Source).Bind(4, arrival.Type).Bind(5, arrival.Id).Bind(6, arrival.Version)
            .Bind(7, prepared.Row.IsNone ? null : (long?)prepared.Row.Packed).Bind(8, arrival.KnownAt.UtcTicks).Bind(9, (long)arrival.KnownBy).Bind(10, prepared.Digest)
            .Run();
        database.Prepared("INSERT INTO bodies (position, salt, codec, length, body) VALUES (?1, ?2, ?3, ?4, ?5)")
            .Bind(1, position.Value).Bind(2, prepared.Salt).Bind(3, prepared.Codec).Bind(4, arrival.Body.Length).Bind(5, prepared.Stored.Span)
            .Run();
    }

    /// <summary>The arrival with its body; null if there is none or its body was purged.</summary>
    public static Arrival? Read(Database database, Position position)
    {
        using var row = database.Prepared(
            "SELECT a.kind, a.source, a.type, a.id, a.version, a.known_at, a.known_by, b.codec, b.length, b.body FROM arrivals a JOIN bodies b ON b.position = a.position WHERE a.position = ?1");
        if (!row.Bind(1, position.Value).Step())
        {
            return null;
        }

        return new Arrival(
            (ArrivalKind)row.Long(0),
            row.Text(1),
            row.TextOrNull(2),
            row.TextOrNull(3),
            row.TextOrNull(4),
            new DateTimeOffset(row.Long(5), TimeSpan.Zero),
            (KnownBy)row.Long(6),
            BodyCodec.Decode(row.Long(7), row.Int(8), row.Blob(9)));
    }
}
