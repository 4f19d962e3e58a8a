using System.Collections.Immutable;
using AirwayGuard.Rules.Reading;

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
            // Taken before reading, so that what is written meanwhile is seen the next time.
            var there = new FileInfo(file);
            if (_seen is { } seen && there.Exists && seen == (there.LastWriteTimeUtc, there.Length))
            {
                return true;
            }

            _seen = null;
            // A pipe or device would block or never end.
            if (FileKinds.Of(file) != FileKind.Regular || there.Length > KeySetText.LargestBytes || KeySetText.Read(File.ReadAllBytes(file)) is not { } keys)
            {
                return false;
            }

            _keys = keys;
            _seen = (there.LastWriteTimeUtc, there.Length);
            return true;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            // Its text names the path, which is no business of the caller, who is told that the set could not be read.
            _seen = null;
            return false;
        }
    }
}
