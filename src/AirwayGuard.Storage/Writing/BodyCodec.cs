using System.IO.Compression;

namespace AirwayGuard.Storage.Writing;

/// <summary>How a body is stored. The codec's number stands beside it, so that a better one can follow.</summary>
internal static class BodyCodec
{
    public const long AsReceived = 0, Brotli = 1;
    private const int Quality = 1, WindowBits = 18;

    public static (long Codec, ReadOnlyMemory<byte> Stored) Encode(ReadOnlyMemory<byte> body)
    {
        var target = new byte[BrotliEncoder.GetMaxCompressedLength(body.Length)];
        return !body.IsEmpty && BrotliEncoder.TryCompress(body.Span, target, out var written, Quality, WindowBits) && written < body.Length
            ? (Brotli, target.AsMemory(0, written))
            : (AsReceived, body);
    }

    /// <exception cref="InvalidDataException">The stored bytes are damaged, or a newer program wrote them.</exception>
    public static byte[] Decode(long codec, int length, ReadOnlySpan<byte> stored)
    {
        if (codec == AsReceived)
        {
            return stored.ToArray();
        }

        if (codec != Brotli)
        {
            throw new InvalidDataException($"Codec {codec} of a stored body is not known.");
        }

        var body = new byte[length];
        return BrotliDecoder.TryDecompress(stored, body, out var written) && written == length
            ? body
            : throw new InvalidDataException("A stored body is damaged.");
    }
}
