namespace AirwayGuard.Fhir.Terminology;

/// <summary>Keys of bytes, looked up by a span of bytes, so that a row needs no string to be found.</summary>
internal sealed class Utf8Keys : IEqualityComparer<byte[]>, IAlternateEqualityComparer<ReadOnlySpan<byte>, byte[]>
{
    public static readonly Utf8Keys Instance = new();

    public bool Equals(byte[]? x, byte[]? y) => x.AsSpan().SequenceEqual(y);

    public bool Equals(ReadOnlySpan<byte> alternate, byte[] other) => alternate.SequenceEqual(other);

    public int GetHashCode(byte[] obj) => GetHashCode(obj.AsSpan());

    // Known codes only are hashed into the table, so a plain hash is safe: a stranger cannot fill it.
    public int GetHashCode(ReadOnlySpan<byte> alternate)
    {
        var hash = 2166136261u;
        foreach (var b in alternate)
        {
            hash = (hash ^ b) * 16777619u;
        }

        return (int)hash;
    }

    public byte[] Create(ReadOnlySpan<byte> alternate) => alternate.ToArray();
}
