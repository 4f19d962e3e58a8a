using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Core.Ports;

/// <summary>
/// What one arrival says: facts and links whose position is still open (<c>Id.Arrival</c>, <c>RowKnown</c> and
/// <c>KnownUntil</c> are stamped when it is kept), and what could not be used.
/// </summary>
public sealed class Reading
{
    public List<Fact> Facts { get; } = [];

    public List<Link> Links { get; } = [];

    public List<Problem> Problems { get; } = [];

    /// <summary>
    /// Identifiers that name entities for keys: the first business identifier, <c>system|value</c>, of the resource itself.
    /// Empty where the resource has none.
    /// </summary>
    public string Identifier { get; set; } = "";

    /// <summary>The entity of the resource itself, over all its versions; none where it is of no interest.</summary>
    public Entity Self { get; set; }

    /// <summary>False where the resource could not be read at all: a single run then exits with 2.</summary>
    public bool Readable { get; set; } = true;

    /// <summary>
    /// <c>system|code</c> of each charted row or component, and of a procedure or order, whose codes no map knows; empty text for a row
    /// without code, or an order named by a text alone. Not of what a map leaves out on purpose.
    /// </summary>
    public List<string> NotMapped { get; } = [];

    public void Clear()
    {
        Facts.Clear();
        Links.Clear();
        Problems.Clear();
        Identifier = "";
        Self = default;
        Readable = true;
        NotMapped.Clear();
    }
}
