using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Records what became of one sending, if its claim is still the newest.</summary>
internal static class SettleVerb
{
    public static Committed Run(WriteSession session, Receipt receipt, PreparedArrival arrival)
    {
        var database = session.Database;
        bool overtaken;
        using (var sending = database.Prepared("SELECT fence, leased_until IS NOT NULL, claimed_revision < revision FROM outbox WHERE key = ?1"))
        {
            if (!sending.Bind(1, receipt.Outgoing).Step() || sending.Long(0) != receipt.Fence)
            {
                return Committed.StaleFence;
            }

            if (sending.Long(1) == 0)
            {
                return Committed.Already;
            }

            overtaken = sending.Long(2) == 1;
        }

        ArrivalRow.Insert(database, session.NextPosition(), arrival);
        Record(database, receipt, overtaken);
        if (receipt is { State: SendState.Unknown, ServerId: { } met })
        {
            Outbox.NoteMade(database, receipt.Outgoing, met);
        }

        if (receipt.State == SendState.Parked && !overtaken)
        {
            Parking.Add(database, new ParkedItem(null, receipt.Outgoing, receipt.ProblemCode ?? "", receipt.Outgoing.ToString(), receipt.At));
        }

        session.Audit(NoteOf(receipt), session.Now);
        return Committed.Yes;
    }

    /// <summary>A receipt is an arrival like any other.</summary>
    public static Arrival ArrivalOf(Receipt receipt)
    {
        var body = Describe(receipt);
        body["outgoing"] = receipt.Outgoing.ToString();
        body["state"] = Word(receipt.State);
        return new Arrival(ArrivalKind.Receipt, "ledger", null, null, null, receipt.At, KnownBy.Received, Encoding.UTF8.GetBytes(body.ToJsonString()));
    }

    private static void Record(Database database, Receipt receipt, bool overtaken)
    {
        var (state, notBefore) = overtaken ? (SendState.Pending, 0) : (receipt.State, receipt.NotBefore?.UtcTicks ?? 0);
        // Of a newer message nobody knows any more when it came; it waits from now on, since what was there before is on the server.
        var confirmed = receipt.State == SendState.Confirmed;
        database.Prepared(
            "UPDATE outbox SET state = ?2, not_before = ?3, leased_until = NULL, claimed_revision = NULL, server_id = coalesce(?4, server_id), "
            + "server_version = coalesce(?5, server_version), problem_code = ?6, settled_at = ?7, attempts = max(attempts - ?8, 0), "
            + "waits_since = CASE WHEN ?9 THEN ?7 ELSE waits_since END WHERE key = ?1")
            .Bind(1, receipt.Outgoing).Bind(2, (long)state).Bind(3, notBefore).Bind(4, confirmed ? receipt.ServerId : null).Bind(5, confirmed ? receipt.ServerVersion : null)
            .Bind(6, receipt.ProblemCode).Bind(7, receipt.At.UtcTicks).Bind(8, receipt.IsNoAttempt ? 1 : 0).Bind(9, overtaken && confirmed ? 1 : 0)
            .Run();
    }

    private static AuditNote NoteOf(Receipt receipt) =>
        new(receipt.State == SendState.Parked ? "parked" : "sent", receipt.Outgoing.ToString(), Describe(receipt, Word(receipt.State)).ToJsonString(), default);

    private static JsonObject Describe(Receipt receipt, string? state = null)
    {
        var members = new JsonObject();
        Add("code", receipt.ProblemCode);
        Add("serverId", receipt.ServerId);
        Add("serverVersion", receipt.ServerVersion);
        Add("state", state);
        return members;

        void Add(string name, string? value)
        {
            if (value is not null)
            {
                members[name] = value;
            }
        }
    }

    private static string Word(SendState state) => state switch
    {
        SendState.Pending => "pending",
        SendState.Unknown => "unknown",
        SendState.Confirmed => "confirmed",
        _ => "parked",
    };
}
