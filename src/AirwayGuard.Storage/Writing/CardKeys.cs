using System.Collections.Immutable;

namespace AirwayGuard.Storage.Writing;

/// <summary>Several keys in one column, 16 bytes each, big-endian.</summary>
internal static class CardKeys
{
    private const int Length = 16;

    public static byte[] Pack(ImmutableArray<Guid> keys)
    {
        if (keys.IsDefaultOrEmpty)
        {
            return [];
        }

        var packed = new byte[keys.Length * Length];
        for (var i = 0; i < keys.Length; i++)
        {
            keys[i].TryWriteBytes(packed.AsSpan(i * Length), bigEndian: true, out _);
        }

        return packed;
    }

    public static ImmutableArray<Guid> Unpack(ReadOnlySpan<byte> packed)
    {
        var keys = ImmutableArray.CreateBuilder<Guid>(packed.Length / Length);
        for (var at = 0; at < packed.Length; at += Length)
        {
            keys.Add(new Guid(packed.Slice(at, Length), bigEndian: true));
        }

        return keys.MoveToImmutable();
    }
}
