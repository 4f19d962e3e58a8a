using System.Security.Cryptography;
using System.Text;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Storage.Tests;

/// <summary>A verifier of the trail written from docs/audit.md alone; nothing here calls the chain's own code.</summary>
internal static class AuditPage
{
    public static string Hash(AuditEntry entry)
    {
        string[] members = ["airwayguard-audit-1", $"{entry.Chain}", $"{entry.Number}", $"{entry.At.UtcTicks}", entry.What, entry.Subject, entry.Detail, entry.BodyDigest, entry.PreviousHash];
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Concat(members.Select(member => $"{Encoding.UTF8.GetByteCount(member)}:{member},")))));
    }

    /// <returns>The code and entry of the first fault, or that of the first entry nobody vouches for; no code where all is vouched for.</returns>
    public static (string Code, long Entry) Verify(IReadOnlyList<AuditEntry> trail, IReadOnlyList<AuditHead> anchors)
    {
        var (head, newest) = (new AuditHead(1, 0, new string('0', 64)), anchors.Select(anchor => anchor.Number).DefaultIfEmpty(0).Max());
        foreach (var entry in trail)
        {
            if (entry.Number != head.Number + 1)
            {
                return ("AG6002", head.Number + 1);
            }

            if (Hash(entry) != entry.Hash)
            {
                return ("AG6001", entry.Number);
            }

            if (entry.PreviousHash != head.Hash || entry.Chain != head.Chain)
            {
                return ("AG6002", entry.Number);
            }

            head = new AuditHead(entry.Chain, entry.Number, entry.Hash);
            if (anchors.Any(anchor => anchor.Number == entry.Number && (anchor.Chain != entry.Chain || anchor.Hash != entry.Hash)))
            {
                return ("AG6004", entry.Number);
            }
        }

        return newest > head.Number ? ("AG6003", head.Number + 1) : newest < head.Number ? ("AG6005", newest + 1) : ("", 0);
    }
}
