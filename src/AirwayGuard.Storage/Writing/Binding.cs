using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Storage.Writing;

/// <summary>Binds the ledger to the one server it serves.</summary>
internal static class Binding
{
    public static Problem? Run(WriteSession session, string serverBase, string serverIdentity)
    {
        // A slash at the end names no other server.
        using (var bound = session.Database.Prepared("SELECT rtrim(server_base, '/') = rtrim(?1, '/') AND rtrim(server_identity, '/') = rtrim(?2, '/') FROM binding"))
        {
            if (bound.Bind(1, serverBase).Bind(2, serverIdentity).Step())
            {
                return bound.Long(0) == 1
                    ? null
                    : new Problem(Codes.LedgerOfOtherServer, "AirwayGuard:DataDirectory", "The ledger was begun with a server of another address or identity.");
            }
        }

        session.Database.Prepared("INSERT INTO binding (only, server_base, server_identity) VALUES (1, ?1, ?2)").Bind(1, serverBase).Bind(2, serverIdentity).Run();
        session.Audit(new AuditNote("bound", serverBase, "{}", default), session.Now);
        return null;
    }
}
