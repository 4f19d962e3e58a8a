using System.Text;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.SignOffs;
using Xunit;

namespace AirwayGuard.Worker.Tests.SignOffs;

public sealed class SignOffDeskTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;
    private SignOffDesk _desk = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static readonly SignOffRequest Strict = new(SignOffAct.Promote, ShippedRuleSets.Bytes("strict-ranges"), "strict-ranges", [], [], "A. Example", "The committee met.");

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        _desk = new SignOffDesk(_bench.Ledger, _bench.Clock);
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    private async Task<string> AskAsync(SignOffRequest request)
    {
        var answer = await _desk.ApplyAsync(request, Stop);
        return answer.Problem is { } problem ? $"{problem.Code.Id} {problem.Where}: {problem.Why}" : answer.Said;
    }

    private async Task<(string Set, string Speaking)> InForceAsync()
    {
        var now = await RulesInForce.OfAsync(_bench.Ledger, ShippedRuleSets.Load("guideline-2022").RuleSet!, null, Stop);
        return (now.Set!.Name, now.SignedOff.AnySpeaks(now.Set) ? "speaks" : "silent");
    }

    [Fact]
    public async Task What_the_settings_name_is_in_force_and_silent_until_a_set_is_promoted()
    {
        Assert.Equal(("guideline-2022", "silent"), await InForceAsync());

        Assert.Equal("strict-ranges 1.0.0 is in force, and all its checks speak. Signed off by A. Example.", await AskAsync(Strict));

        Assert.Equal(("strict-ranges", "speaks"), await InForceAsync());
        var act = Assert.Single(await _bench.Ledger.SignOffsAsync(Stop));
        Assert.Equal((_bench.Clock.Now, "A. Example", "The committee met."), (act.At, act.By, act.Reason));
    }

    [Fact]
    public async Task Promoting_single_checks_in_single_units_lets_nothing_else_speak()
    {
        Assert.Equal(
            "strict-ranges 1.0.0 is in force, and pass-too-long in Location/icu speaks. Signed off by A. Example."
            + " NOTE: no Location of this name has been read from the server: Location/icu. Is it spelled as encounters name it?",
            await AskAsync(Strict with { Checks = ["pass-too-long"], Units = ["Location/icu"] }));

        var now = await RulesInForce.OfAsync(_bench.Ledger, ShippedRuleSets.Load("guideline-2022").RuleSet!, null, Stop);
        Assert.True(now.SignedOff.Speaks("pass-too-long", ["Location/icu"]));
        Assert.False(now.SignedOff.Speaks("pass-too-long", ["Location/nicu"]));
        Assert.False(now.SignedOff.Speaks("vacuum-above-ceiling", ["Location/icu"]));
    }

    [Fact]
    public async Task Withdrawing_silences_and_restoring_goes_back_to_what_spoke_before()
    {
        await AskAsync(Strict);
        await AskAsync(Strict with { Act = SignOffAct.Withdraw, Checks = ["pass-too-long"] });
        await AskAsync(Strict with { Document = ShippedRuleSets.Bytes("guideline-2022") });
        Assert.Equal(("guideline-2022", "speaks"), await InForceAsync());

        Assert.Equal("strict-ranges 1.0.0 is in force again, and speaks where it spoke. Restored by B. Example.", await AskAsync(Strict with { Act = SignOffAct.Restore, By = "B. Example" }));

        var now = await RulesInForce.OfAsync(_bench.Ledger, ShippedRuleSets.Load("guideline-2022").RuleSet!, null, Stop);
        Assert.Equal("strict-ranges", now.Set!.Name);
        Assert.False(now.SignedOff.Speaks("pass-too-long", []));
        Assert.True(now.SignedOff.Speaks("vacuum-above-ceiling", []));
    }

    [Fact]
    public async Task A_set_promoted_again_after_another_begins_afresh_and_says_what_falls_silent()
    {
        await AskAsync(Strict);
        await AskAsync(Strict with { Document = ShippedRuleSets.Bytes("guideline-2022") });

        Assert.Equal(
            "strict-ranges 1.0.0 is in force, and pass-too-long speaks. Signed off by A. Example. NOTE: guideline-2022 1.0.0 is no longer in force; of the 44 of its checks that"
            + " spoke everywhere 43 fall silent where this does not name them, and their Flags end there.",
            await AskAsync(Strict with { Checks = ["pass-too-long"] }));

        var now = await RulesInForce.OfAsync(_bench.Ledger, ShippedRuleSets.Load("guideline-2022").RuleSet!, null, Stop);
        Assert.True(now.SignedOff.Speaks("pass-too-long", []));
        Assert.False(now.SignedOff.Speaks("vacuum-above-ceiling", []));
    }

    [Fact]
    public async Task A_check_that_its_set_silences_is_not_promoted_by_name() =>
        Assert.Equal("AG3610 --check: strict-ranges silences safe-depth-not-on-file itself", await AskAsync(Strict with { Checks = ["safe-depth-not-on-file"] }));

    [Fact]
    public async Task A_refused_set_leaves_the_one_in_force_and_writes_nothing()
    {
        await AskAsync(Strict);
        var faulty = Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(ShippedRuleSets.Bytes("guideline-2022").Span).Replace("severity: high", "severity: hih", StringComparison.Ordinal));

        Assert.StartsWith("AG3603 site.yaml: it has ", await AskAsync(Strict with { Document = faulty, File = "site.yaml" }), StringComparison.Ordinal);

        Assert.Equal(("strict-ranges", "speaks"), await InForceAsync());
        Assert.Single(await _bench.Ledger.SignOffsAsync(Stop));
    }

    [Fact]
    public async Task A_version_that_was_signed_off_is_not_signed_off_with_other_content()
    {
        await AskAsync(Strict);
        var other = Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(ShippedRuleSets.Bytes("strict-ranges").Span).Replace("150 mm[Hg]", "140 mm[Hg]", StringComparison.Ordinal));

        Assert.StartsWith("AG3604 strict-ranges: strict-ranges 1.0.0 was signed off with other content on 2026-03-02 (sha256 ", await AskAsync(Strict with { Document = other }), StringComparison.Ordinal);
        Assert.StartsWith("strict-ranges 1.1.0 is in force", await AskAsync(Strict with { Document = Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(other).Replace("version: 1.0.0", "version: 1.1.0", StringComparison.Ordinal)) }), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "why", "AG3601 --by: it takes a name of 1 to 100 characters")]
    [InlineData("   ", "why", "AG3601 --by: it takes a name of 1 to 100 characters")]
    [InlineData("A. Example", "", "AG3601 --reason: it takes 1 to 500 characters on one line")]
    [InlineData("A\u202eelpmaxE", "why", "AG3601 --by: it takes a name of 1 to 100 characters")]
    [InlineData("A. Example", "two\nlines", "AG3601 --reason: it takes 1 to 500 characters on one line")]
    public async Task Nobody_and_no_reason_sign_nothing_off(string by, string reason, string said)
    {
        Assert.Equal(said, await AskAsync(Strict with { By = by, Reason = reason }));
        Assert.Empty(await _bench.Ledger.SignOffsAsync(Stop));
    }

    [Theory]
    [InlineData("icu", "AG3602 --unit: 'icu' is no Location/id")]
    [InlineData("Location/", "AG3602 --unit: 'Location/' is no Location/id")]
    [InlineData("Location/a b", "AG3602 --unit: 'Location/a b' is no Location/id")]
    public async Task A_unit_is_a_place(string unit, string said) => Assert.Equal(said, await AskAsync(Strict with { Units = [unit] }));

    [Fact]
    public async Task A_check_that_the_set_lacks_is_told_with_the_one_that_was_meant() =>
        Assert.Equal("AG3013 --check: strict-ranges has no check 'pass-to-long'; did you mean pass-too-long?", await AskAsync(Strict with { Checks = ["pass-to-long"] }));

    [Fact]
    public async Task Where_nothing_was_promoted_there_is_nothing_to_withdraw_or_restore()
    {
        Assert.Equal("AG3605 rules withdraw: no rule set was promoted that this release can read", await AskAsync(Strict with { Act = SignOffAct.Withdraw }));
        await AskAsync(Strict);
        Assert.Equal("AG3605 rules restore: no other rule set was in force before this one", await AskAsync(Strict with { Act = SignOffAct.Restore }));
        await AskAsync(Strict with { Act = SignOffAct.Withdraw });
        Assert.Equal("AG3605 rules withdraw: no check of strict-ranges 1.0.0 speaks", await AskAsync(Strict with { Act = SignOffAct.Withdraw }));
    }
}
