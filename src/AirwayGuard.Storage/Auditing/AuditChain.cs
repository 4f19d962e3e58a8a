using System.Buffers;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Storage.Auditing;

/// <summary>The chain of the audit trail: its byte form (docs/audit.md), and its proof.</summary>
public static class AuditChain
{
    /// <summary>Bytes of a salt.</summary>
    public const int SaltLength = 16;

    /// <summary>The number of the chain of a ledger that has one.</summary>
    public const long FirstChain = 1;

    private const string Form = "airwayguard-audit-1";

    /// <summary>Before the first entry.</summary>
    public static readonly AuditHead Start = new(FirstChain, 0, new string('0', 64));

    /// <summary>Digest of a body under its salt: HMAC-SHA-256 keyed with the salt, in lower-case hex; empty for an empty body.</summary>
    public static string DigestOf(ReadOnlySpan<byte> body, ReadOnlySpan<byte> salt) =>
        body.IsEmpty ? "" : Convert.ToHexStringLower(HMACSHA256.HashData(salt, body));

    /// <summary>The hash that an entry must carry: SHA-256 over its byte form, lower-case hex. The entry's own hash is not looked at.</summary>
    public static string HashOf(AuditEntry entry)
    {
        var form = new ArrayBufferWriter<byte>(1_024);
        Add(Form);
        Add(entry.Chain.ToString(CultureInfo.InvariantCulture));
        Add(entry.Number.ToString(CultureInfo.InvariantCulture));
        Add(entry.At.UtcTicks.ToString(CultureInfo.InvariantCulture));
        Add(entry.What);
        Add(entry.Subject);
        Add(entry.Detail);
        Add(entry.BodyDigest);
        Add(entry.PreviousHash);
        return Convert.ToHexStringLower(SHA256.HashData(form.WrittenSpan));

        void Add(string member)
        {
            const int LongestCount = 10;
            var bytes = Encoding.UTF8.GetByteCount(member);
            var into = form.GetSpan(LongestCount + 1 + bytes + 1);
            bytes.TryFormat(into, out var at, provider: CultureInfo.InvariantCulture);
            into[at++] = (byte)':';
            at += Encoding.UTF8.GetBytes(member, into[at..]);
            into[at++] = (byte)',';
            form.Advance(at);
        }
    }

    /// <summary>
    /// Checks every entry and every anchor, in one pass and constant memory. The first fault found is told; entries before it are
    /// sound. An anchor of another chain than the trail's is a fault of kind <see cref="AuditFault.Replaced"/>.
    /// </summary>
    /// <param name="entries">The trail from its first entry.</param>
    /// <param name="anchors">Heads recorded outside, in any order; none leaves every entry unvouched.</param>
    public static async ValueTask<AuditVerdict> Verify(IAsyncEnumerable<AuditEntry> entries, IReadOnlyList<AuditHead> anchors, CancellationToken stop = default)
    {
        var awaited = new Queue<AuditHead>(anchors.Where(anchor => anchor != Start).OrderBy(anchor => anchor.Number));
        var head = Start;
        var vouched = Start;
        var (fits, replaced) = (0, (AuditVerdict?)null);
        await foreach (var entry in entries.WithCancellation(stop))
        {
            if (FaultOf(entry, head) is not AuditFault.None and var fault)
            {
                return replaced ?? new AuditVerdict(fault, head.Number + 1, head, head.Number - vouched.Number);
            }

            head = new AuditHead(entry.Chain, entry.Number, entry.Hash);
            while (awaited.TryPeek(out var anchor) && anchor.Number <= head.Number)
            {
                if (awaited.Dequeue() == head)
                {
                    (vouched, fits) = (head, fits + 1);
                }
                else
                {
                    // Whether another anchor fits tells a rewritten trail from anchors of another ledger.
                    replaced ??= new AuditVerdict(AuditFault.Replaced, head.Number, vouched, 0);
                }
            }
        }

        return replaced is not null ? replaced with { NoneFits = fits == 0 }
            : awaited.Count > 0
            ? new AuditVerdict(AuditFault.Truncated, head.Number + 1, head, head.Number - vouched.Number) { NoneFits = fits == 0 }
            : new AuditVerdict(AuditFault.None, null, head, head.Number - vouched.Number);
    }

    private static AuditFault FaultOf(AuditEntry entry, AuditHead head)
    {
        if (entry.Number != head.Number + 1)
        {
            return AuditFault.Missing;
        }

        if (HashOf(entry) != entry.Hash)
        {
            return AuditFault.Edited;
        }

        return entry.PreviousHash != head.Hash || entry.Chain != head.Chain ? AuditFault.Missing : AuditFault.None;
    }
}
