using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Charting;

/// <summary>
/// One charted thing about one entity, with the time it is about and the position at which it ceased to stand. Blittable, at
/// most 96 bytes; texts and sources stay in the ledger and are fetched when a finding is born.
/// </summary>
/// <param name="Id">Its arrival and place in it; it is known from that position on.</param>
/// <param name="About">The subject: patient, device, place, encounter or order.</param>
/// <param name="Encounter">The encounter the row names, or none.</param>
/// <param name="Device">The device or metric the row says produced it, or none.</param>
/// <param name="Act">The procedure it is part of, or for an order's fact the order's own entity; or none.</param>
/// <param name="Row">The resource it came from, over all its versions.</param>
/// <param name="Group">Grouping key: rows with the same one were charted together; or none.</param>
/// <param name="OffsetMinutes">The event's own offset from UTC, minutes, −840 to 840.</param>
/// <param name="EffectiveFrom">UTC ticks; for a timeless fact <see cref="long.MinValue"/>.</param>
/// <param name="EffectiveTo">UTC ticks; equal to the start for an instant, <see cref="long.MaxValue"/> for an open period.</param>
/// <param name="RowKnown">Position at which any version of its resource first became known; all of one commit share its first position.</param>
/// <param name="KnownUntil">Superseded, corrected or erased at this position; <see cref="Position.Never"/> while it stands.</param>
public readonly record struct Fact(
    FactId Id,
    Entity About,
    Entity Encounter,
    Entity Device,
    Entity Act,
    Entity Row,
    Entity Group,
    Concept Concept,
    FactMarks Marks,
    short OffsetMinutes,
    long EffectiveFrom,
    long EffectiveTo,
    Position RowKnown,
    Position KnownUntil,
    FactValue Value) : ITimed
{
    /// <inheritdoc />
    public long Begins => EffectiveFrom;

    public bool Has(FactMarks mark) => (Marks & mark) != FactMarks.None;

    public bool IsKnownAt(Position position) => Id.Arrival <= position && KnownUntil > position;

    /// <summary>What it is about is an outlet or a regulator, which has a timeline of its own besides its patients'.</summary>
    public bool IsJudgedAlone => Concept == Concepts.FullLineVacuum || (Concept == Concepts.DeviceKind && Value.Symbol == Answers.VacuumRegulator);

    /// <summary>Says its concept only: the value is patient data.</summary>
    public override string ToString() => $"Fact({Concept.Code})";
}
