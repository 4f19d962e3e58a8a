using System.Buffers;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The part of a stream that is held in memory: grows to what one entry needs and is given back when disposed.</summary>
internal sealed class StreamWindow(Stream stream) : IDisposable
{
    private byte[] _buffer = ArrayPool<byte>.Shared.Rent(64 * 1024);
    private int _start, _end;

    public bool IsAtEnd { get; private set; }

    public ReadOnlySpan<byte> Span => _buffer.AsSpan(_start, _end - _start);

    public int Length => _end - _start;

    public void Drop(int count) => _start += count;

    /// <summary>Reads more; false at the end of the stream.</summary>
    public async ValueTask<bool> MoreAsync(CancellationToken stop)
    {
        if (IsAtEnd)
        {
            return false;
        }

        if (_start > 0)
        {
            Buffer.BlockCopy(_buffer, _start, _buffer, 0, _end - _start);
            (_start, _end) = (0, _end - _start);
        }

        if (_end == _buffer.Length)
        {
            var larger = ArrayPool<byte>.Shared.Rent(_buffer.Length * 2);
            Buffer.BlockCopy(_buffer, 0, larger, 0, _end);
            ArrayPool<byte>.Shared.Return(_buffer, clearArray: true);
            _buffer = larger;
        }

        var read = await stream.ReadAsync(_buffer.AsMemory(_end), stop);
        _end += read;
        IsAtEnd = read == 0;
        return !IsAtEnd;
    }

    // What was charted must not stay in a buffer that others rent.
    public void Dispose()
    {
        ArrayPool<byte>.Shared.Return(_buffer, clearArray: true);
        _buffer = [];
        (_start, _end) = (0, 0);
    }
}
