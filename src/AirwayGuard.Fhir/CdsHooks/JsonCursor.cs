using System.Text;
using System.Text.Json;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>
/// Walks JSON forward, once. Each object it passes, read or skipped, has each member once. Whoever takes a value leaves the cursor on
/// the value's last token.
/// </summary>
/// <remarks>Throws <see cref="JsonException"/> where the bytes are no JSON, are nested too deep, name a member twice or hold a text that is no Unicode.</remarks>
internal ref struct JsonCursor
{
    /// <summary>Levels that a body may be nested.</summary>
    public const int Deepest = 64;

    private readonly ReadOnlyMemory<byte> _body;
    private Utf8JsonReader _reader;
    private byte[]? _escapedName;

    public JsonCursor(ReadOnlyMemory<byte> body)
    {
        _body = body;
        _reader = new Utf8JsonReader(body.Span, new JsonReaderOptions { MaxDepth = Deepest });
    }

    public readonly JsonTokenType Token => _reader.TokenType;

    public readonly bool IsObject => _reader.TokenType == JsonTokenType.StartObject;

    public readonly bool IsArray => _reader.TokenType == JsonTokenType.StartArray;

    public readonly bool IsNull => _reader.TokenType == JsonTokenType.Null;

    /// <summary>Where the token begins, in bytes.</summary>
    public readonly int Start => (int)_reader.TokenStartIndex;

    /// <summary>Where what follows the token begins, in bytes.</summary>
    public readonly int End => (int)_reader.BytesConsumed;

    /// <summary>Name of the member that the cursor is on.</summary>
    public readonly string Name => Text();

    /// <summary>To the next token: a member's value, or at the beginning the whole.</summary>
    public void Read() => _reader.Read();

    /// <summary>To the name of the next member of the object; false, and on its end, where there is none.</summary>
    /// <param name="names">Those of this object.</param>
    public bool NextMember(ref MemberNames names)
    {
        _reader.Read();
        if (_reader.TokenType == JsonTokenType.EndObject)
        {
            return false;
        }

        _escapedName = _reader.ValueIsEscaped ? Encoding.UTF8.GetBytes(Text()) : null;
        return names.TryAdd(_escapedName ?? _reader.ValueSpan) ? true : throw Unusable("A member is given twice.");
    }

    /// <summary>To the next item of the array; false, and on its end, where there is none.</summary>
    public bool NextItem()
    {
        _reader.Read();
        return _reader.TokenType != JsonTokenType.EndArray;
    }

    /// <summary>Whether the cursor is on the member of this name.</summary>
    public readonly bool Is(ReadOnlySpan<byte> name) => (_escapedName ?? _reader.ValueSpan).SequenceEqual(name);

    /// <summary>To the last token of the value that the cursor is on.</summary>
    public void Skip()
    {
        if (IsObject)
        {
            var names = new MemberNames();
            while (NextMember(ref names))
            {
                Read();
                Skip();
            }
        }
        else if (IsArray)
        {
            while (NextItem())
            {
                Skip();
            }
        }
    }

    /// <summary>Skips the value without a look at what its members are called.</summary>
    public void SkipUnseen() => _reader.Skip();

    /// <summary>The text that the cursor is on; anything else is skipped.</summary>
    public SentText TakeText()
    {
        if (_reader.TokenType == JsonTokenType.String)
        {
            return new SentText(true, Text());
        }

        var isThere = !IsNull;
        Skip();
        return new SentText(isThere, null);
    }

    /// <summary>The text that the cursor is on; null, without moving, for anything else and for what is no Unicode.</summary>
    public readonly string? TextIfAny() => _reader.TokenType == JsonTokenType.String ? TextOrNull() : null;

    /// <summary>The bytes from a place to the end of the token.</summary>
    public readonly ReadOnlyMemory<byte> Since(int start) => _body[start..End];

    private readonly string Text() => TextOrNull() ?? throw Unusable("A text is no Unicode.");

    private readonly string? TextOrNull()
    {
        try
        {
            return _reader.GetString();
        }
        catch (InvalidOperationException)
        {
            // It holds half of a character, written as an escape.
            return null;
        }
    }

    private readonly UnusableJsonException Unusable(string why)
    {
        var before = _body.Span[..Start];
        return new UnusableJsonException(why, before.Count((byte)'\n'), before.Length - before.LastIndexOf((byte)'\n') - 1);
    }
}

/// <summary>How a member that should be a text was sent.</summary>
/// <param name="IsThere">False where it was not sent, or as null.</param>
/// <param name="Text">Null where it is not there or of another kind.</param>
internal readonly record struct SentText(bool IsThere, string? Text);

/// <summary>JSON that its grammar allows and that is not taken here.</summary>
/// <param name="why">One sentence that quotes nothing.</param>
internal sealed class UnusableJsonException(string why, long line, long position) : JsonException(why, null, line, position)
{
    public string Why { get; } = why;
}
