using AirwayGuard.Core.Charting;

namespace AirwayGuard.Storage.Entities;

/// <summary>Names that were asked for lately and that no entity bears, so that the file is not searched for them again and again. Not safe for concurrent use.</summary>
/// <param name="most">So many are remembered; at one more all are forgotten.</param>
internal sealed class AbsentNames(int most)
{
    private readonly HashSet<byte[]>[] _ofKind = new HashSet<byte[]>[16];
    private int _count;

    public bool Contains(EntityKind kind, ReadOnlySpan<byte> name) =>
        _ofKind[(int)kind] is { } names && names.GetAlternateLookup<ReadOnlySpan<byte>>().Contains(name);

    public void Add(EntityKind kind, ReadOnlySpan<byte> name)
    {
        if (_count >= most)
        {
            Array.Clear(_ofKind);
            _count = 0;
        }

        var names = _ofKind[(int)kind] ??= new HashSet<byte[]>(Utf8Comparer.Instance);
        _count += names.GetAlternateLookup<ReadOnlySpan<byte>>().Add(name) ? 1 : 0;
    }

    /// <summary>An entity of this name was made.</summary>
    public void Remove(EntityKind kind, ReadOnlySpan<byte> name)
    {
        if (_ofKind[(int)kind] is { } names && names.GetAlternateLookup<ReadOnlySpan<byte>>().Remove(name))
        {
            _count--;
        }
    }
}
