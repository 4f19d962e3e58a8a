using System.Text.Json;
using System.Text.Unicode;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What the scanner came upon.</summary>
internal enum Scanned : byte
{
    NeedsMore, Entry, EntryTooLarge, End, Malformed,
}

/// <summary>
/// Walks the first JSON value of a stream. Of a Bundle it gives out the entries one by one and lets go of everything else; of
/// any other value it keeps the bytes, up to the limit of an entry.
/// </summary>
/// <param name="isBundle">The value is known to be a Bundle, though its type may stand after its entries.</param>
internal sealed class ValueScanner(bool isBundle)
{
    /// <summary>A value whose type is not known yet is kept up to this size: writers that sort members put the type after the entries.</summary>
    private const int LargestUntyped = 64 * 1024 * 1024;

    private JsonReaderState _state = new(new JsonReaderOptions { MaxDepth = int.MaxValue, AllowMultipleValues = true });
    private int _scanned;
    private int _keptFrom = -1;
    private bool _isInEntries, _isTypeNext, _isEntryNext, _isEntryTooLarge, _isEntrySeen;

    public bool IsBundle { get; private set; } = isBundle;

    public bool IsObject { get; private set; }

    public bool IsTooLarge { get; private set; }

    /// <summary>Bytes before what the window still holds are gone.</summary>
    public bool HasDropped { get; private set; }

    public int EntryNumber { get; private set; }

    /// <summary>The entry, or the whole value.</summary>
    public byte[] Bytes { get; private set; } = [];

    public int FirstLine { get; private set; } = 1;

    public int LastLine { get; private set; } = 1;

    public Scanned Next(StreamWindow window)
    {
        try
        {
            return Walk(window);
        }
        catch (Exception malformed) when (malformed is JsonException or InvalidOperationException)
        {
            // The latter: a name is written with an escape that is no Unicode.
            return Scanned.Malformed;
        }
    }

    private Scanned Walk(StreamWindow window)
    {
        var reader = new Utf8JsonReader(window.Span[_scanned..], window.IsAtEnd, _state);
        while (reader.Read())
        {
            var found = Take(ref reader, window);
            if (found != Scanned.NeedsMore)
            {
                Advance(ref reader, window);
                return found;
            }
        }

        var isOver = window.IsAtEnd;
        Advance(ref reader, window);
        if (isOver)
        {
            return Scanned.Malformed;
        }

        LimitMemory(window);
        return IsTooLarge && window.Length - _scanned > Limit ? Scanned.Malformed : Scanned.NeedsMore;
    }

    private Scanned Take(ref Utf8JsonReader reader, StreamWindow window)
    {
        var at = _scanned + (int)reader.TokenStartIndex;
        var isStart = reader.TokenType is JsonTokenType.StartObject or JsonTokenType.StartArray;
        switch (reader.CurrentDepth)
        {
            case 0 when reader.TokenType == JsonTokenType.StartObject:
                (IsObject, _keptFrom) = (true, IsBundle ? -1 : at);
                FirstLine = LastLine + window.Span[..at].Count((byte)'\n');
                return Scanned.NeedsMore;
            case 0 when !isStart:
                Bytes = Kept(window, _scanned + (int)reader.BytesConsumed);
                _keptFrom = -1;
                return Scanned.End;
            case 1:
                TakeMember(ref reader);
                return Scanned.NeedsMore;
            case 2 when _isInEntries && isStart:
                EntryNumber++;
                (_keptFrom, _isEntryTooLarge) = (at, false);
                return Scanned.NeedsMore;
            case 2 when _isInEntries:
                EntryNumber += reader.TokenType is JsonTokenType.EndObject or JsonTokenType.EndArray ? 0 : 1;
                _keptFrom = _keptFrom < 0 && !_isEntryTooLarge ? at : _keptFrom;
                var end = _scanned + (int)reader.BytesConsumed;
                var isTooLarge = _isEntryTooLarge || end - _keptFrom > JsonCheck.LargestEntry;
                Bytes = isTooLarge ? [] : Kept(window, end);
                (_keptFrom, _isEntryTooLarge) = (-1, false);
                return isTooLarge ? Scanned.EntryTooLarge : Scanned.Entry;
            default:
                return Scanned.NeedsMore;
        }
    }

    private void TakeMember(ref Utf8JsonReader reader)
    {
        switch (reader.TokenType)
        {
            case JsonTokenType.PropertyName when !Utf8.IsValid(reader.ValueSpan):
                // A damaged name may be that of the entries, which must not be passed over in silence.
                throw new JsonException();
            case JsonTokenType.PropertyName:
                _isTypeNext = IsObject && reader.ValueTextEquals("resourceType"u8);
                _isEntryNext = IsObject && reader.ValueTextEquals("entry"u8);
                _isEntrySeen |= _isEntryNext;
                break;
            case JsonTokenType.String when _isTypeNext && !_isEntrySeen && reader.ValueTextEquals("Bundle"u8):
                // From here on only entries are kept. Had they gone by, the whole is kept and walked again.
                (IsBundle, _keptFrom) = (true, -1);
                break;
            case JsonTokenType.StartArray:
                _isInEntries = IsBundle && _isEntryNext;
                break;
            case JsonTokenType.EndArray:
                _isInEntries = false;
                break;
            default:
                break;
        }
    }

    private byte[] Kept(StreamWindow window, int end) =>
        IsTooLarge || _keptFrom < 0 || end - _keptFrom > Limit ? TooLarge() : window.Span[_keptFrom..end].ToArray();

    private int Limit => IsBundle ? JsonCheck.LargestEntry : LargestUntyped;

    private byte[] TooLarge()
    {
        IsTooLarge |= IsObject && !IsBundle;
        return [];
    }

    private void Advance(ref Utf8JsonReader reader, StreamWindow window)
    {
        _scanned += (int)reader.BytesConsumed;
        _state = reader.CurrentState;
        var free = _keptFrom < 0 ? _scanned : Math.Min(_keptFrom, _scanned);
        Drop(window, free);
    }

    private void LimitMemory(StreamWindow window)
    {
        if (window.Length <= Limit)
        {
            return;
        }

        if (_keptFrom >= 0)
        {
            _isEntryTooLarge = IsBundle;
            IsTooLarge |= !IsBundle;
            _keptFrom = -1;
            Drop(window, _scanned);
        }

        // A single text larger than any entry may be.
        IsTooLarge |= window.Length - _scanned > Limit;
    }

    private void Drop(StreamWindow window, int count)
    {
        if (count > 0)
        {
            LastLine += window.Span[..count].Count((byte)'\n');
            HasDropped = true;
            window.Drop(count);
            _scanned -= count;
            _keptFrom = _keptFrom < 0 ? -1 : _keptFrom - count;
        }
    }
}
