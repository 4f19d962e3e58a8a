using AirwayGuard.Core.Charting;

namespace AirwayGuard.Storage.Sql;

/// <summary>A link as a row of integers.</summary>
internal static class LinkRow
{
    public const string Columns = "from_entity, position, ordinal, kind, to_entity, from_time, to_time, row, row_known, known_until";

    /// <summary>A link that a resource says twice in the same words is one link.</summary>
    public const string Insert = $"INSERT INTO links ({Columns}) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10) ON CONFLICT DO NOTHING";

    public static Statement Bind(Statement insert, in Link link) => insert
        .Bind(1, link.From.Packed).Bind(2, link.Id.Arrival.Value).Bind(3, link.Id.Ordinal).Bind(4, (long)link.Kind).Bind(5, link.To.Packed)
        .Bind(6, link.FromTime).Bind(7, link.ToTime).Bind(8, link.Row.Packed).Bind(9, link.RowKnown.Value).Bind(10, link.KnownUntil.Value);

    public static Link Read(Statement row) => new(
        new FactId(new Position(row.Long(1)), (ushort)row.Long(2)),
        (LinkKind)row.Long(3),
        new Entity(row.Int(0)),
        new Entity(row.Int(4)),
        new Entity(row.Int(7)),
        row.Long(5),
        row.Long(6),
        new Position(row.Long(8)),
        new Position(row.Long(9)));
}
