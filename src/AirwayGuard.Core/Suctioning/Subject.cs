using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Core.Suctioning;

/// <summary>What is judged. Its identity is that of its earliest known member and never changes while that member stands.</summary>
/// <param name="Index">Which pass, session, setting or order of the <see cref="Care"/> it is.</param>
/// <param name="Identity">The row, act or order that names it in keys.</param>
/// <param name="From">Start, UTC ticks.</param>
/// <param name="To">End, UTC ticks; equal to the start where no end is charted.</param>
/// <param name="OffsetMinutes">The event's own offset, which decides the calendar day its age is counted on.</param>
public readonly record struct Subject(SubjectKind Kind, int Index, Entity Identity, long From, long To, short OffsetMinutes)
{
    /// <summary>Of an order the airway it is held against, as an index; −1 for none, and for other kinds.</summary>
    public int Airway { get; init; } = -1;

    /// <summary>Of an order held against an airway before: it breaches against a later one too, which has its key.</summary>
    public bool IsSuperseded { get; init; }
}
