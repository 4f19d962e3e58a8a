using System.Text.Json;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Explaining;

/// <summary>What an audit entry about a finding says, in a person's words.</summary>
internal static class AuditWords
{
    /// <summary>SHA-256 of what a finding was judged by, or empty.</summary>
    public static string BasisOf(AuditEntry entry) => entry.What.StartsWith("finding-", StringComparison.Ordinal) ? Member(entry, "basis") : "";

    /// <param name="isOfAnotherPolicy">It was judged by another policy than the entry before.</param>
    public static string Of(AuditEntry entry, bool isOfAnotherPolicy) => entry.What switch
    {
        "finding-amend" when isOfAnotherPolicy => "judged again by another policy",
        "finding-raise" when IsCannotTell(entry) => "could not be told",
        "finding-amend" when IsCannotTell(entry) => "could not be told: something else is missing, or again",
        "finding-clear" when IsCannotTell(entry) => "told, or no longer asked",
        "finding-raise" => "raised",
        "finding-amend" => "changed on changed charting",
        "finding-clear" => "cleared",
        "finding-withdraw" => "withdrawn: what it rested on was corrected or taken back",
        "finding-closebyperson" => "closed by a person",
        "finding-retire" => "ended: by the policy now in force it is no finding",
        "finding-follow" => Member(entry, "state") switch
        {
            "Cleared" => "over, as its spell or its order is",
            "Open" => "stands again",
            _ => "counted to another spell",
        },
        "person-closed" => "found closed by a person on the server",
        "person-changed" => "found changed by a person on the server, and left so",
        "parked" => "set aside" + Code(entry),
        "parked-retried" => "put back to be sent again",
        "parked-dropped" => "dropped by a person: it will not be sent",
        "sent" => Sent(entry),
        "question-answered" => "a question about an order was answered",
        "card-answered" => Member(entry, "outcome") == "accepted" ? "a card was followed by whoever ordered" : "a card was overridden by whoever ordered",
        _ => entry.What,
    };

    private static bool IsCannotTell(AuditEntry entry) => Member(entry, "kind") == nameof(Core.Findings.FindingKind.CannotTell);

    private static string Sent(AuditEntry entry)
    {
        var (state, id, version) = (Member(entry, "state"), Member(entry, "serverId"), Member(entry, "serverVersion"));
        return state switch
        {
            "confirmed" when id.Length > 0 => $"on the server as id {id}{(version.Length > 0 ? $", version {version}" : "")}",
            "confirmed" => "settled with the server",
            _ => "sent, to be tried again" + Code(entry),
        };
    }

    private static string Code(AuditEntry entry) => Member(entry, "code") is { Length: > 0 } code ? $" ({code})" : "";

    private static string Member(AuditEntry entry, string name)
    {
        using var detail = JsonDocument.Parse(entry.Detail);
        return detail.RootElement.ValueKind == JsonValueKind.Object && detail.RootElement.TryGetProperty(name, out var member) && member.ValueKind == JsonValueKind.String
            ? member.GetString()!
            : "";
    }
}
