using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Storage.Sql;

/// <summary>A fact as a row of integers. Small members share two of them: a column costs more to read than to take apart.</summary>
internal static class FactRow
{
    /// <summary>The order of the table itself, which spares the engine a step a column.</summary>
    public const string Columns =
        "about, effective_from, position, ordinal, what, known_until, effective_to, row_known, encounter, device, act, row, group_key, shape, digits";

    public const string Insert = $"INSERT INTO facts ({Columns}) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)";

    private const int PositionColumn = 2, KnownUntilColumn = 5;

    public static Statement Bind(Statement insert, in Fact fact) => insert
        .Bind(1, fact.About.Packed).Bind(2, fact.EffectiveFrom).Bind(3, fact.Id.Arrival.Value).Bind(4, fact.Id.Ordinal).Bind(5, What(fact))
        .Bind(6, fact.KnownUntil.Value).Bind(7, fact.EffectiveTo).Bind(8, fact.RowKnown.Value).Bind(9, fact.Encounter.Packed)
        .Bind(10, fact.Device.Packed).Bind(11, fact.Act.Packed).Bind(12, fact.Row.Packed).Bind(13, fact.Group.Packed)
        .Bind(14, Shape(fact.Value)).Bind(15, fact.Value.Digits);

    /// <summary>Reads the rest of a row only if it was known at the position.</summary>
    public static bool TryRead(Statement row, long knownAt, out Fact fact)
    {
        var position = row.Long(PositionColumn);
        var knownUntil = row.Long(KnownUntilColumn);
        if (position > knownAt || knownUntil <= knownAt)
        {
            fact = default;
            return false;
        }

        var what = row.Long(4);
        var shape = row.Long(13);
        fact = new Fact(
            new FactId(new Position(position), (ushort)row.Long(3)),
            new Entity(row.Int(0)),
            new Entity(row.Int(8)),
            new Entity(row.Int(9)),
            new Entity(row.Int(10)),
            new Entity(row.Int(11)),
            new Entity(row.Int(12)),
            new Concept((ushort)(what >> 32)),
            (FactMarks)(what >> 16),
            (short)what,
            row.Long(1),
            row.Long(6),
            new Position(row.Long(7)),
            new Position(knownUntil),
            new FactValue(row.Long(14), (int)(shape >> 32), (byte)(shape >> 24), (ValueKind)(byte)(shape >> 16), (Unit)(byte)(shape >> 8), (Comparator)(byte)shape));
        return true;
    }

    private static long What(in Fact fact) => ((long)fact.Concept.Index << 32) | ((long)(ushort)fact.Marks << 16) | (ushort)fact.OffsetMinutes;

    private static long Shape(FactValue value) =>
        ((long)value.Symbol << 32) | ((long)value.Scale << 24) | ((long)value.Kind << 16) | ((long)value.Unit << 8) | (long)value.Comparator;
}
