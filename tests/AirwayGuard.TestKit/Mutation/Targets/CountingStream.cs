namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>Bytes given out in pieces; whoever asks on and on after the end is stopped.</summary>
internal sealed class CountingStream(byte[] bytes, int piece) : Stream
{
    private const int MostAfterTheEnd = 8;

    private int _at;
    private int _afterEnd;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position { get => _at; set => throw new NotSupportedException(); }

    public override int Read(Span<byte> buffer)
    {
        var count = Math.Min(Math.Min(piece, buffer.Length), bytes.Length - _at);
        if (count == 0 && ++_afterEnd > MostAfterTheEnd)
        {
            throw new InvalidOperationException("The stream is read again and again after its end.");
        }

        bytes.AsSpan(_at, count).CopyTo(buffer);
        _at += count;
        return count;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default) => new(Read(buffer.Span));

    public override Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) => Task.FromResult(Read(buffer.AsSpan(offset, count)));

    public override void Flush() => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
