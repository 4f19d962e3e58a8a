using System.Collections.Immutable;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>What named persons did to rule sets.</summary>
internal static class SignOffRows
{
    private const char Between = '\n';

    public static bool Add(WriteSession session, SignOff act, RuleDocument? document)
    {
        var database = session.Database;
        if (document is not null)
        {
            Documents.Keep(database, document);
        }

        database.Prepared("INSERT INTO sign_offs (at, act, name, version, sha256, checks, units, by_whom, reason) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)")
            .Bind(1, act.At.UtcTicks).Bind(2, (long)act.Act).Bind(3, act.Name).Bind(4, act.Version).Bind(5, act.Sha256)
            .Bind(6, string.Join(Between, act.Checks)).Bind(7, string.Join(Between, act.Units)).Bind(8, act.By).Bind(9, act.Reason)
            .Run();
        session.Audit(NoteOf(act), session.Now);
        return true;
    }

    /// <summary>All of them, oldest first.</summary>
    public static List<SignOff> Read(Database database)
    {
        using var rows = database.Prepared("SELECT at, act, name, version, sha256, checks, units, by_whom, reason FROM sign_offs ORDER BY number");
        var acts = new List<SignOff>();
        while (rows.Step())
        {
            acts.Add(new SignOff(
                new DateTimeOffset(rows.Long(0), TimeSpan.Zero), (SignOffAct)rows.Long(1), rows.Text(2), rows.Text(3), rows.Text(4),
                Split(rows.Text(5)), Split(rows.Text(6)), rows.Text(7), rows.Text(8)));
        }

        return acts;
    }

    private static ImmutableArray<string> Split(string text) => text.Length == 0 ? [] : [.. text.Split(Between)];

    private static AuditNote NoteOf(SignOff act)
    {
        var detail = new JsonObject
        {
            ["act"] = act.Act.ToString().ToLowerInvariant(),
            ["by"] = act.By,
            ["checks"] = new JsonArray([.. act.Checks.Select(static check => (JsonNode)check)]),
            ["name"] = act.Name,
            ["reason"] = act.Reason,
            ["units"] = new JsonArray([.. act.Units.Select(static unit => (JsonNode)unit)]),
            ["version"] = act.Version,
        };
        return new AuditNote("signed-off", act.Sha256, detail.ToJsonString(), default);
    }
}
