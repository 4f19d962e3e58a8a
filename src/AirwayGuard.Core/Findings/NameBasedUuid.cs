using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Text;

namespace AirwayGuard.Core.Findings;

/// <summary>Name-based identifiers, version 5 (RFC 4122 §4.3; RFC 9562 §5.5): the same name gives the same identifier everywhere.</summary>
public static class NameBasedUuid
{
    /// <summary>RFC 4122 appendix C: the name space of URLs.</summary>
    public static readonly Guid Urls = new("6ba7b811-9dad-11d1-80b4-00c04fd430c8");

    [SuppressMessage("Security", "CA5350", Justification = "RFC 4122 fixes SHA-1 for version 5; nothing secret hangs on it.")]
    public static Guid Create(Guid nameSpace, string name)
    {
        var bytes = new byte[16 + Encoding.UTF8.GetByteCount(name)];
        nameSpace.TryWriteBytes(bytes, bigEndian: true, out _);
        Encoding.UTF8.GetBytes(name, bytes.AsSpan(16));
        Span<byte> hash = stackalloc byte[20];
        SHA1.HashData(bytes, hash);
        var version = BinaryPrimitives.ReadUInt16BigEndian(hash[6..]);
        BinaryPrimitives.WriteUInt16BigEndian(hash[6..], (ushort)((version & 0x0FFF) | 0x5000));
        hash[8] = (byte)((hash[8] & 0x3F) | 0x80);
        return new Guid(hash[..16], bigEndian: true);
    }
}
