namespace AirwayGuard.Core.Charting;

/// <summary>Position in the ledger: the only order in which anything became known. Total, gap-free per ledger, from 1.</summary>
public readonly record struct Position(long Value) : IComparable<Position>
{
    /// <summary>After everything: a fact that still stands ceases to be known here.</summary>
    public static readonly Position Never = new(long.MaxValue);

    public int CompareTo(Position other) => Value.CompareTo(other.Value);

    public static bool operator <(Position left, Position right) => left.Value < right.Value;

    public static bool operator >(Position left, Position right) => left.Value > right.Value;

    public static bool operator <=(Position left, Position right) => left.Value <= right.Value;

    public static bool operator >=(Position left, Position right) => left.Value >= right.Value;
}
