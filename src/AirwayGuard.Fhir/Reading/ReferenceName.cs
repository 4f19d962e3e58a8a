using AirwayGuard.Core.Charting;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// The name a literal reference gives its target: <c>Type/id</c> of a relative or absolute address, without version. A
/// <c>urn:uuid:</c> names a target of the type the element expects. Contained, logical and conditional references name none.
/// </summary>
internal static class ReferenceName
{
    /// <summary>Longest name; a FHIR id has 64 characters, some servers give longer ones.</summary>
    public const int Longest = 256;

    /// <param name="reference">Reference.reference, UTF-8.</param>
    /// <param name="expected">The type of a target that the reference itself gives no type.</param>
    /// <param name="scratch">At least <see cref="Longest"/> bytes, for names that must be put together.</param>
    public static bool TryRead(
        ReadOnlySpan<byte> reference, ReadOnlySpan<byte> expected, Span<byte> scratch, out EntityKind kind, out ReadOnlySpan<byte> name)
    {
        kind = EntityKind.None;
        name = default;
        if (reference.IsEmpty || reference[0] == '#' || reference.Length > 2048 || reference.IndexOfAny("?# "u8) >= 0)
        {
            return false;
        }

        if (reference.StartsWith("urn:"u8))
        {
            var id = reference[(reference.LastIndexOf((byte)':') + 1)..];
            return TryCompose(expected, id, scratch, out name) && (kind = KindOf(expected)) != EntityKind.None;
        }

        var history = reference.IndexOf("/_history/"u8);
        var address = history < 0 ? reference : reference[..history];
        var slash = address.LastIndexOf((byte)'/');
        if (slash <= 0 || slash == address.Length - 1)
        {
            return false;
        }

        var typed = address[(address[..slash].LastIndexOf((byte)'/') + 1)..];
        var type = typed[..typed.IndexOf((byte)'/')];
        if (typed.Length > Longest || !IsTypeName(type))
        {
            return false;
        }

        kind = KindOf(type);
        name = typed;
        return true;
    }

    public static bool TryCompose(ReadOnlySpan<byte> type, ReadOnlySpan<byte> id, Span<byte> scratch, out ReadOnlySpan<byte> name)
    {
        name = default;
        if (id.IsEmpty || type.Length + 1 + id.Length > scratch.Length)
        {
            return false;
        }

        type.CopyTo(scratch);
        scratch[type.Length] = (byte)'/';
        id.CopyTo(scratch[(type.Length + 1)..]);
        name = scratch[..(type.Length + 1 + id.Length)];
        return true;
    }

    /// <summary>As <see cref="References.KindOf"/>, of UTF-8.</summary>
    public static EntityKind KindOf(ReadOnlySpan<byte> type)
    {
        Span<char> characters = stackalloc char[40];
        if (type.Length > characters.Length)
        {
            return EntityKind.Statement;
        }

        for (var i = 0; i < type.Length; i++)
        {
            characters[i] = (char)type[i];
        }

        return References.KindOf(characters[..type.Length]);
    }

    private static bool IsTypeName(ReadOnlySpan<byte> type)
    {
        if (type.IsEmpty || type[0] is < (byte)'A' or > (byte)'Z')
        {
            return false;
        }

        foreach (var letter in type)
        {
            if (!char.IsAsciiLetter((char)letter))
            {
                return false;
            }
        }

        return true;
    }
}
