using System.Collections.Immutable;
using AirwayGuard.Rules.Reading;
using Microsoft.Win32.SafeHandles;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>
/// The set of one file, read again when it was written anew. A file that is gone or cannot be read leaves no key usable: whoever took
/// it away meant that, and what it held before is not known to hold still.
/// </summary>
internal sealed class FileKeys(string file, TimeProvider clock)
{
    private readonly Lock _lock = new();
    private (DateTime Written, long Length)? _seen;
    private ImmutableArray<HookKey> _keys = [];

    public KeyAnswer Find(string kid, string algorithm)
    {
        lock (_lock)
        {
            return TryRefresh() ? KeyAnswer.Of(_keys, kid, algorithm, clock.GetUtcNow()) : KeyAnswer.Unread;
        }
    }

    private bool TryRefresh()
    {
        try
        {
            // A pipe or device would block or never end.
            if (FileKinds.Of(file) != FileKind.Regular)
            {
                _seen = null;
                return false;
            }

            // What was opened is asked: a path that is a link keeps its own time while its target is exchanged, as mounted secrets do.
            using var opened = File.OpenHandle(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            // Taken before reading, so that what is written meanwhile is seen the next time.
            var there = (File.GetLastWriteTimeUtc(opened), RandomAccess.GetLength(opened));
            return _seen == there || TryRead(opened, there);
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            // Its text names the path, which is no business of the caller, who is told that the set could not be read.
            _seen = null;
            return false;
        }
    }

    private bool TryRead(SafeFileHandle opened, (DateTime Written, long Length) there)
    {
        _seen = null;
        // One byte more than a set may have tells that it is too large.
        var bytes = new byte[KeySetText.LargestBytes + 1];
        using var stream = new FileStream(opened, FileAccess.Read);
        var length = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        if (KeySetText.Read(bytes.AsMemory(0, length)) is not { } keys)
        {
            return false;
        }

        (_keys, _seen) = (keys, there);
        return true;
    }
}
