using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>The version of a resource that stands.</summary>
/// <param name="KnownAt">When it became known, UTC ticks.</param>
/// <param name="RowKnown">Since when any version of the resource is known.</param>
internal readonly record struct Standing(Position Position, long KnownAt, ArrivalKind Kind, Position RowKnown)
{
    /// <summary>Null where no version was kept, or the arrival is no resource.</summary>
    public static Standing? Of(Database database, Entity row)
    {
        if (row.IsNone)
        {
            return null;
        }

        using var found = database.Prepared("SELECT newest, newest_known_at, newest_kind, row_known FROM resources WHERE row = ?1");
        return found.Bind(1, row.Packed).Step()
            ? new Standing(new Position(found.Long(0)), found.Long(1), (ArrivalKind)found.Long(2), new Position(found.Long(3)))
            : null;
    }
}
