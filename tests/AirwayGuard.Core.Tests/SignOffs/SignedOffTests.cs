using AirwayGuard.Core.Judging;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Rules;
using Xunit;

namespace AirwayGuard.Core.Tests.SignOffs;

public sealed class SignedOffTests
{
    private const string Check = "vacuum-above-ceiling", Other = "pass-too-long";

    private static readonly DateTimeOffset Noon = new(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);

    private static SignOff Act(SignOffAct act, string sha = "a", string[]? checks = null, string[]? units = null) =>
        new(Noon, act, "willowmere", "1", sha, [.. checks ?? []], [.. units ?? []], "A. Example", "why");

    private static SignedOff Of(params SignOff[] acts) => SignedOff.Of(acts, "a");

    [Fact]
    public void Nothing_speaks_until_somebody_promotes_it()
    {
        Assert.False(Of().Speaks(Check, []));
        Assert.True(Of(Act(SignOffAct.Promote)).Speaks(Check, []));
    }

    [Fact]
    public void What_was_signed_for_another_set_counts_for_nothing_here() =>
        Assert.False(Of(Act(SignOffAct.Promote, "b")).Speaks(Check, []));

    [Fact]
    public void Of_the_acts_that_cover_a_check_the_last_counts()
    {
        var signed = Of(Act(SignOffAct.Promote), Act(SignOffAct.Withdraw, checks: [Check]));

        Assert.False(signed.Speaks(Check, []));
        Assert.True(signed.Speaks(Other, []));
        Assert.True(Of(Act(SignOffAct.Promote), Act(SignOffAct.Withdraw, checks: [Check]), Act(SignOffAct.Promote)).Speaks(Check, []));
    }

    [Fact]
    public void A_unit_may_speak_alone_and_may_be_silenced_alone()
    {
        var one = Of(Act(SignOffAct.Promote, units: ["Location/icu"]));
        Assert.True(one.Speaks(Check, ["Location/bed-3", "Location/icu"]));
        Assert.False(one.Speaks(Check, ["Location/nicu"]));
        Assert.False(one.Speaks(Check, []));

        var allButOne = Of(Act(SignOffAct.Promote), Act(SignOffAct.Withdraw, checks: [Check], units: ["Location/icu"]));
        Assert.False(allButOne.Speaks(Check, ["Location/icu"]));
        Assert.True(allButOne.Speaks(Check, ["Location/nicu"]));
        Assert.True(allButOne.Speaks(Check, []));
        Assert.True(allButOne.Speaks(Other, ["Location/icu"]));
    }

    [Fact]
    public void What_a_document_silences_no_sign_off_makes_speak()
    {
        var rules = ShippedRuleSets.Load("strict-ranges").RuleSet!;

        var there = Of(Act(SignOffAct.Promote)).At(rules, []);

        Assert.Equal(rules.Rules.Select(rule => rule.Mode), there.Rules.Select(rule => rule.Mode));
        Assert.All(Of().At(rules, []).Rules, rule => Assert.Equal(Mode.Silent, rule.Mode));
        Assert.True(Of(Act(SignOffAct.Promote, units: ["Location/icu"])).AnySpeaks(rules));
        Assert.False(Of(Act(SignOffAct.Promote, checks: ["wall-supply-unsurveyed"])).AnySpeaks(rules));
        Assert.False(Of().AnySpeaks(rules));
    }

    [Fact]
    public void What_decides_who_speaks_is_one_text_whoever_signed_and_when()
    {
        var acts = Act(SignOffAct.Promote, checks: [Other, Check]);

        Assert.Equal(Of(acts).Canonical(), Of(acts with { By = "B", Reason = "other", At = Noon.AddDays(1), Checks = [Check, Other] }).Canonical(), StringComparer.Ordinal);
        Assert.NotEqual(Of(acts).Canonical(), Of(acts with { Units = ["Location/icu"] }).Canonical(), StringComparer.Ordinal);
        Assert.NotEqual(Of(acts).Canonical(), Of(acts with { Act = SignOffAct.Withdraw }).Canonical(), StringComparer.Ordinal);
        Assert.NotEqual(SignedOff.All.Canonical(), SignedOff.None.Canonical(), StringComparer.Ordinal);
    }

    [Fact]
    public void A_set_promoted_after_another_begins_afresh_and_a_restored_one_speaks_where_it_spoke()
    {
        SignOff[] before = [Act(SignOffAct.Promote), Act(SignOffAct.Promote, "b")];

        Assert.False(Of([.. before, Act(SignOffAct.Promote, checks: [Other])]).Speaks(Check, []));
        Assert.True(Of([.. before, Act(SignOffAct.Restore)]).Speaks(Check, []));
        Assert.True(Of([.. before, Act(SignOffAct.Restore), Act(SignOffAct.Promote, checks: [Other])]).Speaks(Check, []));
        Assert.True(Of([Act(SignOffAct.Promote), Act(SignOffAct.Promote, checks: [Other])]).Speaks(Check, []));
    }

    [Fact]
    public void Restoring_goes_one_set_back_each_time()
    {
        SignOff[] acts = [Act(SignOffAct.Promote, "a"), Act(SignOffAct.Promote, "a", [Check]), Act(SignOffAct.Promote, "b"), Act(SignOffAct.Promote, "c")];

        Assert.Empty(SetsInForce.Of([]));
        Assert.Equal(["a", "b", "c"], SetsInForce.Of(acts));
        Assert.Equal(["a", "b"], SetsInForce.Of([.. acts, Act(SignOffAct.Restore, "b")]));
        Assert.Equal(["a"], SetsInForce.Of([.. acts, Act(SignOffAct.Restore, "b"), Act(SignOffAct.Restore, "a")]));
        Assert.Equal(["a", "c"], SetsInForce.Of([.. acts, Act(SignOffAct.Restore, "b"), Act(SignOffAct.Restore, "a"), Act(SignOffAct.Promote, "c")]));
        Assert.Equal(["a", "b", "c"], SetsInForce.Of([.. acts, Act(SignOffAct.Withdraw, "c")]));
    }
}
