using System.Runtime.CompilerServices;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Tells a member that an object has twice, in time that grows with the number of members only.</summary>
internal struct MemberNames
{
    // R4 has no type with more members than fit.
    private const int Room = 48;

    private Hashes _first;
    private HashSet<ulong>? _all;
    private int _count;

    /// <summary>False where the name was there before.</summary>
    public bool TryAdd(ReadOnlySpan<byte> name)
    {
        var hash = Hash(name);
        Span<ulong> first = _first;
        if (_count == Room)
        {
            _all ??= new HashSet<ulong>(first.ToArray(), Seeded.Instance);
            return _all.Add(hash);
        }

        if (first[.._count].Contains(hash))
        {
            return false;
        }

        first[_count++] = hash;
        return true;
    }

    private static ulong Hash(ReadOnlySpan<byte> name)
    {
        var hash = 14695981039346656037UL;
        foreach (var letter in name)
        {
            hash = (hash ^ letter) * 1099511628211UL;
        }

        return hash;
    }

    // Who sends names could choose them so that all meet in one place of a set that anyone can compute, and each would cost a walk over all.
    private sealed class Seeded : IEqualityComparer<ulong>
    {
        public static readonly Seeded Instance = new();

        public bool Equals(ulong x, ulong y) => x == y;

        public int GetHashCode(ulong hash) => HashCode.Combine(hash);
    }

    [InlineArray(Room)]
    private struct Hashes
    {
        private ulong _hash;
    }
}
