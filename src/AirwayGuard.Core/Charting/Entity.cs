namespace AirwayGuard.Core.Charting;

/// <summary>Whom or what a fact is about, or which resource it came from. A device's or place's facts reach a patient only through links.</summary>
/// <param name="Packed">Kind in the upper four bits, key in the lower 28; 0 is nobody.</param>
public readonly record struct Entity(int Packed) : IComparable<Entity>
{
    /// <summary>Largest key: 268 million entities a kind.</summary>
    public const int MaxKey = (1 << 28) - 1;

    /// <param name="key">1 to <see cref="MaxKey"/>, given by the interner, stable for its life and growing in the order in which entities became known.</param>
    public Entity(EntityKind kind, int key)
        : this(((int)kind << 28) | key)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(key, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(key, MaxKey);
    }

    public EntityKind Kind => (EntityKind)(Packed >>> 28);

    public int Key => Packed & MaxKey;

    public bool IsNone => Packed == 0;

    public int CompareTo(Entity other) => ((uint)Packed).CompareTo((uint)other.Packed);

    public static bool operator <(Entity left, Entity right) => left.CompareTo(right) < 0;

    public static bool operator >(Entity left, Entity right) => left.CompareTo(right) > 0;

    public static bool operator <=(Entity left, Entity right) => left.CompareTo(right) <= 0;

    public static bool operator >=(Entity left, Entity right) => left.CompareTo(right) >= 0;
}
