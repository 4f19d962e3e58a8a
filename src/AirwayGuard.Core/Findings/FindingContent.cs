using System.Collections.Immutable;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using AirwayGuard.Core.Measures;

namespace AirwayGuard.Core.Findings;

/// <summary>What a finding's record holds besides its columns.</summary>
/// <param name="Fingerprint">Changes exactly when what is judged, or on what, changes.</param>
/// <param name="Shown">The number at the end of its key, 1 for none: 2, 3, … for a spell shown again after a person's closing, and where the key before is another patient's.</param>
/// <param name="Anchor">For a spell: what its key hangs on, with its line.</param>
/// <param name="Sent">False where nothing leaves the service: a silent rule, a withheld finding.</param>
public sealed record FindingContent(string Fingerprint, int Shown, string Line, string Anchor, bool Sent, IssueMessage? Issue, FlagMessage? Flag)
{
    /// <summary>Why it is not shown; <see cref="Withholding.None"/> where it is.</summary>
    public Withholding Withheld { get; init; }

    /// <summary>For a spell: identity of the airway of its latest occurrence; empty for none, and in records from before it was kept.</summary>
    public string Airway { get; init; } = "";

    /// <summary>It ended because a policy came into force that does not make it; what it rests on is still charted.</summary>
    public bool OfAnotherPolicy { get; init; }

    /// <summary>For what could not be told: what its judging lacked; default for a breach.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public ImmutableArray<Missing> Missing { get; init; }

    /// <summary>For what could not be told: what it was judged by; null for a breach, whose message says it.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public MessageBasis? CannotTellBasis { get; init; }

    /// <summary>Of which judgement its words and limit are, where that is not the one on record; null where it is.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public SaidBefore? Said { get; init; }

    /// <summary>Names of what it was judged by last; null where nothing was kept of it.</summary>
    [JsonIgnore]
    public MessageBasis? Basis => Issue?.Basis ?? Flag?.Basis ?? CannotTellBasis;

    private static readonly JsonSerializerOptions Options = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    public byte[] Write() => JsonSerializer.SerializeToUtf8Bytes(this, Options);

    /// <exception cref="JsonException">The bytes are no such content.</exception>
    public static FindingContent Read(ReadOnlySpan<byte> utf8) => JsonSerializer.Deserialize<FindingContent>(utf8, Options) ?? throw new JsonException("null");

    /// <summary>Says the fingerprint only.</summary>
    public override string ToString() => $"FindingContent({Shown})";
}
