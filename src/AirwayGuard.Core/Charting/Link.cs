namespace AirwayGuard.Core.Charting;

/// <summary>One entity belongs to another for a stretch of time, as one resource version says; a correction ends it like a fact.</summary>
/// <param name="Row">The resource that says so, over all its versions.</param>
/// <param name="FromTime">UTC ticks; <see cref="long.MinValue"/> where no start is given.</param>
/// <param name="ToTime">UTC ticks; <see cref="long.MaxValue"/> where it is open.</param>
public readonly record struct Link(
    FactId Id,
    LinkKind Kind,
    Entity From,
    Entity To,
    Entity Row,
    long FromTime,
    long ToTime,
    Position RowKnown,
    Position KnownUntil)
{
    public bool IsKnownAt(Position position) => Id.Arrival <= position && KnownUntil > position;

    public bool HoldsAt(long ticks) => FromTime <= ticks && ticks < ToTime;
}
