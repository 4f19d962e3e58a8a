using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Auditing;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

/// <summary>
/// Somebody who can write the ledger changes the trail and makes every number, link and hash fit again. What lies before the last
/// anchor is caught all the same; what lies after it is reported as not vouched for.
/// </summary>
public sealed class AuditTamperingTests : IAsyncLifetime
{
    private const int Tamperings = 1_000, Entries = 40;
    private readonly TestFolder _folder = new();
    private List<AuditEntry> _trail = [];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions(), new SetClock(Charted.Morning));
        for (var i = 1; i <= Entries; i++)
        {
            await ledger.AuditAsync([new AuditNote(i % 3 == 0 ? "judged" : "sent", $"Patient/{i}", $"{{\"n\":{i}}}", new byte[] { (byte)i })], Charted.Morning.AddMinutes(i), Stop);
        }

        _trail = await ledger.AuditTrailAsync(Stop).ToListAsync(Stop);
    }

    public ValueTask DisposeAsync()
    {
        _folder.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task AThousandTamperings_EveryHashMadeToFit_AreCaughtUpToTheLastAnchor()
    {
        var (chance, caught, unvouched) = (new Random(20260302), 0, 0);
        for (var run = 0; run < Tamperings; run++)
        {
            var anchors = Enumerable.Range(0, 1 + chance.Next(4)).Select(_ => _trail[chance.Next(Entries)]).Select(entry => new AuditHead(entry.Chain, entry.Number, entry.Hash)).ToList();
            var last = anchors.Max(anchor => anchor.Number);
            var (kind, at) = (chance.Next(9), 1 + chance.Next(Entries));
            var (forged, touched) = Tamper([.. _trail], kind, at, chance);
            var verdict = await AuditChain.Verify(forged.ToAsyncEnumerable(), anchors, Stop);
            var told = $"run {run}: tampering {kind} at {at}, anchors {string.Join(' ', anchors.Select(anchor => anchor.Number).Order())}: {verdict}";

            if (touched <= last)
            {
                // The next anchor is the first thing that nobody could forge: it, or the end where the trail stops before it.
                var first = anchors.Where(anchor => anchor.Number >= touched).Min(anchor => anchor.Number);
                var (fault, bad) = forged.Count < first ? (AuditFault.Truncated, forged.Count + 1) : (AuditFault.Replaced, first);
                Assert.True((verdict.Fault, verdict.FirstBad) == (fault, bad), told);
                Assert.True(verdict.Fault == AuditFault.Truncated || verdict.Sound.Number < touched, told);
                caught++;
            }
            else
            {
                Assert.True(verdict.IsSound && verdict.Unvouched == forged.Count - last, told);
                unvouched++;
            }

            var page = AuditPage.Verify(forged, anchors);
            Assert.True(page == (verdict.Problem?.Code.Id ?? "", verdict.FirstBad ?? (verdict.Unvouched > 0 ? last + 1 : 0)), $"{told}, the page says {page}");
        }

        Assert.True(caught > Tamperings / 4 && unvouched > Tamperings / 20, $"{caught} caught, {unvouched} unvouched");
    }

    [Fact]
    public async Task AThousandTamperings_HashesLeftAlone_AreCaughtWhereTheyAre()
    {
        var chance = new Random(20260303);
        for (var run = 0; run < Tamperings; run++)
        {
            var (kind, at) = (chance.Next(6), 1 + chance.Next(Entries - 1));
            var (forged, touched) = Edit([.. _trail], kind, at, chance);
            var verdict = await AuditChain.Verify(forged.ToAsyncEnumerable(), [new AuditHead(1, Entries, _trail[^1].Hash)], Stop);

            Assert.True(verdict.FirstBad == touched && !verdict.IsSound, $"run {run}: tampering {kind} at {at}: {verdict}");
            Assert.Equal(AuditPage.Verify(forged, [new AuditHead(1, Entries, _trail[^1].Hash)]), (verdict.Problem!.Code.Id, verdict.FirstBad!.Value));
        }
    }

    [Fact]
    public async Task TheTrailAsItIs_IsSoundForBoth()
    {
        AuditHead[] anchors = [new(1, 7, _trail[6].Hash), new(1, Entries, _trail[^1].Hash)];

        Assert.True((await AuditChain.Verify(_trail.ToAsyncEnumerable(), anchors, Stop)) is { IsSound: true, Unvouched: 0 });
        Assert.Equal(("", 0), AuditPage.Verify(_trail, anchors));
    }

    // Everything from the entry on is numbered, linked and hashed anew, by the page's own rules.
    private static (List<AuditEntry> Forged, long Touched) Tamper(List<AuditEntry> trail, int kind, int at, Random chance)
    {
        var (forged, touched) = Edit(trail, kind, at, chance);
        for (var i = 0; i < forged.Count; i++)
        {
            var entry = forged[i] with { Number = i + 1, PreviousHash = i == 0 ? new string('0', 64) : forged[i - 1].Hash };
            forged[i] = entry with { Hash = AuditPage.Hash(entry) };
        }

        return (forged, touched);
    }

    private static (List<AuditEntry> Forged, long Touched) Edit(List<AuditEntry> trail, int kind, int at, Random chance)
    {
        var old = trail[at - 1];
        switch (kind)
        {
            case 0:
                trail[at - 1] = old with { Subject = old.Subject + "9" };
                break;
            case 1:
                trail[at - 1] = old with { Detail = "{}" };
                break;
            case 2:
                trail[at - 1] = old with { At = old.At.AddTicks(1 + chance.Next(1_000)) };
                break;
            case 3:
                trail[at - 1] = old with { BodyDigest = chance.Next(2) == 0 ? "" : new string('e', 64) };
                break;
            case 4:
                trail[at - 1] = old with { What = "promoted" };
                break;
            case 5:
                trail.RemoveAt(at - 1);
                break;
            case 6:
                trail.Insert(at - 1, old with { Subject = "Patient/forged" });
                break;
            case 7:
                trail.RemoveRange(at - 1, trail.Count - at + 1);
                break;
            default:
                var other = at == trail.Count ? at - 1 : at + 1;
                (trail[at - 1], trail[other - 1]) = (trail[other - 1], trail[at - 1]);
                return (trail, Math.Min(at, other));
        }

        return (trail, at);
    }
}
