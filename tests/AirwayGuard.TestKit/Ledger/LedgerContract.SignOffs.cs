using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    private static readonly string SignedSha = new('a', 64);

    private static SignOff SignOffOf(SignOffAct act, string[] checks, string[] units) =>
        new(Now, act, "willowmere", "1.0.0", SignedSha, [.. checks], [.. units], "A. Example", "The committee met.");

    [Fact]
    public async Task What_is_signed_off_is_kept_in_order_with_everything_that_was_said()
    {
        Assert.Empty(await Ledger.SignOffsAsync(Stop));
        await Ledger.SignOffAsync(SignOffOf(SignOffAct.Promote, [], []), new RuleDocument(SignedSha, Encoding.UTF8.GetBytes("schema: 1")), Stop);
        await Ledger.SignOffAsync(SignOffOf(SignOffAct.Withdraw, ["pass-too-long", "wall-supply-low"], ["Location/icu", "Location/nicu"]), null, Stop);

        var acts = await Ledger.SignOffsAsync(Stop);

        Assert.Equal([SignOffAct.Promote, SignOffAct.Withdraw], acts.Select(act => act.Act));
        Assert.All(acts, act => Assert.Equal((Now, "willowmere", "1.0.0", SignedSha, "A. Example", "The committee met."), (act.At, act.Name, act.Version, act.Sha256, act.By, act.Reason)));
        Assert.Empty(acts[0].Checks);
        Assert.Equal(["pass-too-long", "wall-supply-low"], acts[1].Checks);
        Assert.Equal(["Location/icu", "Location/nicu"], acts[1].Units);
    }

    [Fact]
    public async Task The_document_signed_off_stays_readable_by_its_hash()
    {
        await Ledger.SignOffAsync(SignOffOf(SignOffAct.Promote, [], []), new RuleDocument(SignedSha, Encoding.UTF8.GetBytes("schema: 1")), Stop);

        Assert.Equal("schema: 1", Encoding.UTF8.GetString((await Ledger.RulesAsync(SignedSha, Stop))!.Utf8.Span));
        Assert.Null(await Ledger.RulesAsync(new string('b', 64), Stop));
    }

    [Fact]
    public async Task A_sign_off_stands_in_the_audit_trail_with_who_and_why()
    {
        await Ledger.SignOffAsync(SignOffOf(SignOffAct.Withdraw, ["pass-too-long"], ["Location/icu"]), null, Stop);

        Assert.Equal(("signed-off", SignedSha), await LastEntryAsync());
        using var detail = JsonDocument.Parse((await Trail())[^1].Detail);
        Assert.Equal(
            ("withdraw", "A. Example", "The committee met.", "pass-too-long", "Location/icu"),
            (detail.RootElement.GetProperty("act").GetString(), detail.RootElement.GetProperty("by").GetString(), detail.RootElement.GetProperty("reason").GetString(),
                detail.RootElement.GetProperty("checks")[0].GetString(), detail.RootElement.GetProperty("units")[0].GetString()));
    }
}
