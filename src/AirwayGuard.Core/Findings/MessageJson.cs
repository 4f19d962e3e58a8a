using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace AirwayGuard.Core.Findings;

/// <summary>Outgoing messages as canonical JSON: members in the order of the records, numbers and times invariant.</summary>
public static class MessageJson
{
    /// <summary>Kinds of outgoing messages, <c>Outgoing.Kind</c>.</summary>
    public const string Issue = "issue", Flag = "flag";

    private static readonly JsonSerializerOptions Options = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    public static string Write(IssueMessage message) => JsonSerializer.Serialize(message, Options);

    public static string Write(FlagMessage message) => JsonSerializer.Serialize(message, Options);

    /// <exception cref="JsonException">The text is not such a message.</exception>
    public static IssueMessage ReadIssue(string json) => JsonSerializer.Deserialize<IssueMessage>(json, Options) ?? throw new JsonException("null");

    /// <exception cref="JsonException">The text is not such a message.</exception>
    public static FlagMessage ReadFlag(string json) => JsonSerializer.Deserialize<FlagMessage>(json, Options) ?? throw new JsonException("null");
}
