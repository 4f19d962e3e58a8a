using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Auditing;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    [Fact]
    public async Task The_trail_tells_what_was_kept_sent_and_parked_and_verifies_against_its_anchor()
    {
        await Send(Flag, "one");
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Confirmed), Stop);
        await Ledger.ParkAsync(new ParkedItem(new Position(1), null, "AG4999", "Observation/1", Now), Stop);
        var head = await Ledger.AuditAsync([Note("promoted", 1), Note("promoted", 2)], Now, Stop);
        await Ledger.AuditAsync([Note("later", 3)], Now, Stop);

        Assert.Equal("kept sent parked promoted promoted later", string.Join(' ', (await Trail()).Select(entry => entry.What)));
        var verdict = await AuditChain.Verify(Ledger.AuditTrailAsync(Stop), [head], Stop);
        Assert.Equal((AuditFault.None, null, 1), (verdict.Fault, verdict.FirstBad, verdict.Unvouched));
        Assert.Equal(6, (await AuditChain.Verify(Ledger.AuditTrailAsync(Stop), [], Stop)).Unvouched);
    }

    [Fact]
    public async Task A_body_stands_in_the_trail_as_a_salted_digest_only()
    {
        await Ledger.AuditAsync([Note("shown", 1), Note("shown", 1), new AuditNote("empty", "", "{}", default)], Now, Stop);

        var trail = await Trail();

        Assert.Equal(0, trail[2].BodyDigest.Length);
        Assert.Equal(2, trail.Select(entry => entry.BodyDigest).Where(digest => digest.Length == 64).Distinct(StringComparer.Ordinal).Count());
    }

    [Theory]
    [InlineData("edit", AuditFault.Edited, 5)]
    [InlineData("time", AuditFault.Edited, 5)]
    [InlineData("digest", AuditFault.Edited, 5)]
    [InlineData("delete", AuditFault.Missing, 5)]
    [InlineData("delete first", AuditFault.Missing, 1)]
    [InlineData("swap", AuditFault.Missing, 5)]
    [InlineData("double", AuditFault.Missing, 6)]
    [InlineData("rechain", AuditFault.Missing, 6)]
    [InlineData("renumber", AuditFault.Missing, 5)]
    [InlineData("cut", AuditFault.Truncated, 10)]
    [InlineData("empty", AuditFault.Truncated, 1)]
    [InlineData("replace", AuditFault.Replaced, 10)]
    public async Task Tampering_is_found_and_the_first_bad_entry_named(string tampering, AuditFault fault, long firstBad)
    {
        var head = await Ledger.AuditAsync([.. Enumerable.Range(1, 10).Select(i => Note("shown", i))], Now, Stop);
        var trail = Tamper(await Trail(), tampering);

        var verdict = await AuditChain.Verify(trail.ToAsyncEnumerable(), [head], Stop);

        Assert.Equal((fault, firstBad), (verdict.Fault, verdict.FirstBad));
        Assert.NotNull(verdict.Problem);
    }

    protected static async ValueTask VerifySound(ILedger ledger) =>
        Assert.Equal(AuditFault.None, (await AuditChain.Verify(ledger.AuditTrailAsync(Stop), [], Stop)).Fault);

    private static AuditNote Note(string what, int number) => new(what, $"Patient/{number}", "{\"n\":\"ü\"}", Encoding.UTF8.GetBytes($"body {number}"));

    private async ValueTask<List<AuditEntry>> Trail() => await Ledger.AuditTrailAsync(Stop).ToListAsync(Stop);

    private static List<AuditEntry> Tamper(List<AuditEntry> trail, string tampering)
    {
        switch (tampering)
        {
            case "edit":
                trail[4] = trail[4] with { Subject = "Patient/99" };
                break;
            case "time":
                trail[4] = trail[4] with { At = trail[4].At.AddTicks(1) };
                break;
            case "digest":
                trail[4] = trail[4] with { BodyDigest = trail[3].BodyDigest };
                break;
            case "delete":
                trail.RemoveAt(4);
                break;
            case "delete first":
                trail.RemoveAt(0);
                break;
            case "swap":
                (trail[4], trail[5]) = (trail[5], trail[4]);
                break;
            case "double":
                trail.Insert(5, trail[4]);
                break;
            case "rechain":
                trail[4] = Hashed(trail[4] with { Subject = "Patient/99" });
                break;
            case "renumber":
                trail.RemoveAt(4);
                trail[4] = Hashed(trail[4] with { Number = 5 });
                break;
            case "cut":
                trail.RemoveAt(9);
                break;
            case "empty":
                trail.Clear();
                break;
            case "replace":
                for (var i = 4; i < trail.Count; i++)
                {
                    trail[i] = Hashed(trail[i] with { Subject = "Patient/99", PreviousHash = trail[i - 1].Hash });
                }

                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(tampering), tampering, "no such tampering");
        }

        return trail;
    }

    private static AuditEntry Hashed(AuditEntry entry) => entry with { Hash = AuditChain.HashOf(entry) };
}
