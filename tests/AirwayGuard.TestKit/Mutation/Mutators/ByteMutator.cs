namespace AirwayGuard.TestKit.Mutation.Mutators;

/// <summary>Breaks bytes: flips, cuts, repeats, bytes that are no UTF-8, marks before and words behind.</summary>
internal static class ByteMutator
{
    private static readonly byte[][] Odd =
    [
        [0xC3, 0x28], [0xED, 0xA0, 0x80], [0xF4, 0x90, 0x80, 0x80], [0xFF], [0xFE, 0xFF], [0xEF, 0xBB, 0xBF], [0], [0x0B], [0x1B], [0xC2, 0x85], [0xE2, 0x80, 0xA8], [0xC0, 0x80],
    ];

    public static byte[] Mutate(byte[] bytes, Dice dice)
    {
        for (var left = 1 + dice.Next(3); left > 0; left--)
        {
            var at = dice.Next(bytes.Length + 1);
            var to = Math.Min(bytes.Length, at + 1 + dice.Next(40));
            bytes = dice.Next(9) switch
            {
                0 when at < bytes.Length => [.. bytes.AsSpan(0, at), (byte)(bytes[at] ^ (1 << dice.Next(8))), .. bytes.AsSpan(at + 1)],
                1 => bytes[..at],
                2 => [.. bytes.AsSpan(0, at), .. bytes.AsSpan(to)],
                3 => [.. bytes.AsSpan(0, to), .. bytes.AsSpan(at)],
                4 => [.. bytes.AsSpan(0, at), "{}[]\",:0-\\ntf\n\r "u8[dice.Next(16)], .. bytes.AsSpan(at)],
                5 => [.. bytes.AsSpan(0, at), .. dice.OneOf(Odd), .. bytes.AsSpan(at)],
                6 => [.. "\uFEFF"u8, .. bytes],
                7 => [.. bytes, .. bytes.AsSpan(at)],
                _ => [.. bytes.AsSpan(0, at), (byte)dice.Next(256), .. bytes.AsSpan(Math.Min(bytes.Length, at + 1))],
            };
        }

        return bytes;
    }
}
