using AirwayGuard.Core.Charting;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Reading;

/// <summary>The links of the ledger as known at one position.</summary>
internal sealed class StoredLinks(Database database, Position asKnownAt) : ILinkSource
{
    /// <summary>What stands now, seen from inside a commit.</summary>
    public static readonly Position Now = new(long.MaxValue - 1);

    private const string Known = "position <= ?2 AND known_until > ?2";

    public IEnumerable<Link> From(Entity entity) => Read(entity, $"SELECT {LinkRow.Columns} FROM links WHERE from_entity = ?1 AND {Known}");

    public IEnumerable<Link> To(Entity entity) => Read(entity, $"SELECT {LinkRow.Columns} FROM links INDEXED BY links_by_to WHERE to_entity = ?1 AND {Known}");

    private List<Link> Read(Entity entity, string sql)
    {
        using var rows = database.Prepared(sql);
        rows.Bind(1, entity.Packed).Bind(2, asKnownAt.Value);
        var links = new List<Link>();
        while (rows.Step())
        {
            links.Add(LinkRow.Read(rows));
        }

        return links;
    }
}
