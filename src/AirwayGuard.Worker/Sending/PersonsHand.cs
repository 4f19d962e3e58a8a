using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Worker.Sending;

/// <summary>
/// Records what the sink met of a person's hand. An ending is kept as an arrival of its own, known from its position on, so that
/// the spell is judged closed there, now and in a replay; a change that ends nothing is written in the audit trail only.
/// </summary>
internal static class PersonsHand
{
    public static async ValueTask NoteAsync(ILedger ledger, Outgoing outgoing, SinkAnswer answer, DateTimeOffset now, CancellationToken stop)
    {
        if (!answer.ChangedByPerson && !answer.ClosedByPerson)
        {
            return;
        }

        var isNews = answer.ClosedByPerson && (await ledger.FindingAsync(outgoing.Key, stop))?.State != FindingState.ClosedByPerson;
        if (isNews)
        {
            await ledger.KeepAsync([ActOf(ledger, outgoing, answer, now)], null, stop);
        }

        await ledger.AuditAsync([new AuditNote(answer.ClosedByPerson ? "person-closed" : "person-changed", outgoing.Key.ToString(), Describe(answer).ToJsonString(), default)], now, stop);
    }

    /// <summary>
    /// Whether a person has ended what a message would make: it was there, though nobody knows where, and making it now would raise it a
    /// second time.
    /// </summary>
    public static async ValueTask<bool> HasEndedAsync(ILedger ledger, Outgoing outgoing, CancellationToken stop) =>
        (await ledger.FindingAsync(outgoing.Key, stop))?.State == FindingState.ClosedByPerson && Raises(outgoing);

    private static bool Raises(Outgoing outgoing)
    {
        try
        {
            return outgoing.Kind switch
            {
                MessageJson.Flag => MessageJson.ReadFlag(outgoing.Content).Status == FlagStatus.Active,
                MessageJson.Issue => MessageJson.ReadIssue(outgoing.Content).Status is IssueStatus.Final or IssueStatus.Amended,
                _ => false,
            };
        }
        catch (JsonException)
        {
            // The sink tells of it.
            return false;
        }
    }

    private static ReadArrival ActOf(ILedger ledger, Outgoing outgoing, SinkAnswer answer, DateTimeOffset now)
    {
        var body = Describe(answer);
        body["act"] = "closed";
        body["key"] = outgoing.Key.ToString();
        body["kind"] = outgoing.Kind;
        var reading = new Reading();
        reading.Facts.Add(new Fact(
            default, outgoing.Patient, default, default, default, default, ledger.Entities.Intern(EntityKind.GroupKey, Encoding.UTF8.GetBytes(outgoing.Key.ToString())),
            outgoing.Kind == MessageJson.Flag ? Concepts.FlagInactive : Concepts.IssueMitigated, FactMarks.Timeless, 0, long.MinValue, long.MaxValue, default, default, FactValue.Yes));
        return new ReadArrival(new Arrival(ArrivalKind.PersonsAct, "server", null, null, null, now, KnownBy.Received, Encoding.UTF8.GetBytes(body.ToJsonString())), reading);
    }

    private static JsonObject Describe(SinkAnswer answer)
    {
        var members = new JsonObject();
        if (answer.Server is { } server)
        {
            members["serverId"] = server.Id;
            members["serverVersion"] = server.Version;
        }

        return members;
    }
}
