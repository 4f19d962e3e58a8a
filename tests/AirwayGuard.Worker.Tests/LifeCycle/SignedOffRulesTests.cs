using AirwayGuard.Core.Findings;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>What a named person promotes is told, also of what stood before; what is withdrawn falls silent, and its Flags end.</summary>
public sealed class SignedOffRulesTests : IAsyncLifetime
{
    private const string Stay =
        """{"resourceType":"Encounter","id":"e","status":"in-progress","class":{"system":"http://terminology.hl7.org/CodeSystem/v3-ActCode","code":"IMP"},"subject":{"reference":"Patient/p"},"period":{"start":"2026-03-01T08:00:00Z"},"location":[{"location":{"reference":"Location/icu"}}]}""";

    private PipelineBench _bench = null!;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        await SignAsync();
        await _bench.PutAsync(Ward.Patient);
        await _bench.PutAsync(Stay);
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    private static SignOff Act(SignOffAct act, string[]? checks = null, string[]? units = null) =>
        new(Ward.Morning, act, "set", "1", "sha", [.. checks ?? []], [.. units ?? []], "A. Example", "why");

    private async Task SignAsync(params SignOff[] acts)
    {
        var signed = SignedOff.Of(acts, "sha");
        _bench.Basis = _bench.Basis with { SignedOff = signed, Names = _bench.Basis.Names with { BasisSha256 = "basis " + signed.Canonical() } };
        await _bench.RestartAsync();
    }

    private async Task<(string Flag, int Issues)> TheyAreAsync() =>
        (string.Join(' ', (await _bench.FlagsAsync()).Select(flag => flag.Status())), (await _bench.IssuesAsync()).Count);

    [Fact]
    public async Task Nothing_leaves_before_somebody_promotes_and_what_stands_is_told_then()
    {
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        Assert.Equal(("", 0), await TheyAreAsync());
        Assert.NotEmpty(await _bench.FindingsAsync());

        await SignAsync(Act(SignOffAct.Promote));
        await _bench.RoundAsync();

        Assert.Equal(("active", 1), await TheyAreAsync());
        await _bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task A_check_withdrawn_ends_its_flags_and_leaves_what_was_found()
    {
        await SignAsync(Act(SignOffAct.Promote));
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();

        await SignAsync(Act(SignOffAct.Promote), Act(SignOffAct.Withdraw, ["vacuum-above-ceiling"]));
        await _bench.RoundAsync();
        await _bench.RoundAsync();

        Assert.Equal(("inactive", 1), await TheyAreAsync());
        Assert.Equal("final", Assert.Single(await _bench.IssuesAsync()).Status());
        await _bench.PutAsync(Ward.Vacuum("o2", 230, 20));
        await _bench.RoundAsync();
        Assert.Equal(("inactive", 1), await TheyAreAsync());
    }

    [Fact]
    public async Task Promoted_again_what_still_stands_is_flagged_again_once()
    {
        await SignAsync(Act(SignOffAct.Promote));
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        await SignAsync(Act(SignOffAct.Promote), Act(SignOffAct.Withdraw));
        await _bench.RoundAsync();

        await SignAsync(Act(SignOffAct.Promote), Act(SignOffAct.Withdraw), Act(SignOffAct.Promote));
        await _bench.RoundAsync();

        Assert.Equal(("active", 1), await TheyAreAsync());
        await _bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task What_was_said_is_taken_back_when_its_charting_was_wrong_though_its_check_is_silent_by_then()
    {
        await SignAsync(Act(SignOffAct.Promote));
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        await SignAsync(Act(SignOffAct.Promote), Act(SignOffAct.Withdraw));
        await _bench.RoundAsync();

        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10, status: "entered-in-error"));
        await _bench.RoundAsync();

        Assert.Equal("entered-in-error", Assert.Single(await _bench.IssuesAsync()).Status());
    }

    [Fact]
    public async Task What_was_said_is_not_said_anew_by_another_policy_while_its_check_is_silent()
    {
        await SignAsync(Act(SignOffAct.Promote));
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        var said = Assert.Single(await _bench.IssuesAsync()).ToJsonString();

        var guideline = FewChecks.Of(AirwayGuard.Rules.ShippedRuleSets.Load("guideline-2022").RuleSet!);
        _bench.Basis = _bench.Basis with { Rules = guideline };
        await SignAsync(Act(SignOffAct.Promote, ["pass-too-long"]));
        await _bench.RoundAsync();
        Assert.Equal(said, Assert.Single(await _bench.IssuesAsync()).ToJsonString());
        Assert.Equal("inactive", Assert.Single(await _bench.FlagsAsync()).Status());

        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10, status: "entered-in-error"));
        await _bench.RoundAsync();
        Assert.Equal("entered-in-error", Assert.Single(await _bench.IssuesAsync()).Status());
    }

    [Fact]
    public async Task A_unit_alone_may_speak()
    {
        await SignAsync(Act(SignOffAct.Promote, units: ["Location/nicu"]));
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        Assert.Equal(("", 0), await TheyAreAsync());

        await SignAsync(Act(SignOffAct.Promote, units: ["Location/nicu"]), Act(SignOffAct.Promote, units: ["Location/icu"]));
        await _bench.RoundAsync();

        Assert.Equal(("active", 1), await TheyAreAsync());
    }

    [Fact]
    public async Task A_ward_speaks_for_its_beds()
    {
        await SignAsync(Act(SignOffAct.Promote, units: ["Location/tower-3"]));
        await _bench.PutAsync("""{"resourceType":"Location","id":"icu","name":"Bed 4","partOf":{"reference":"Location/room-4"}}""");
        await _bench.PutAsync("""{"resourceType":"Location","id":"room-4","partOf":{"reference":"Location/tower-3"}}""");
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();

        Assert.Equal(("active", 1), await TheyAreAsync());
    }

    [Fact]
    public async Task A_patient_who_is_moved_to_a_unit_that_does_not_speak_takes_no_flag_along()
    {
        await SignAsync(Act(SignOffAct.Promote, units: ["Location/icu"]));
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        Assert.Equal(("active", 1), await TheyAreAsync());

        await _bench.PutAsync(Stay.Replace("Location/icu", "Location/ward-3", StringComparison.Ordinal));
        await _bench.RoundAsync();

        Assert.Equal(("inactive", 1), await TheyAreAsync());
    }

    [Fact]
    public async Task A_check_that_is_silent_withholds_nothing_from_one_that_speaks()
    {
        // On full line the ceiling's finding is withheld, since the other check says it: unless nobody hears that one.
        await SignAsync(Act(SignOffAct.Promote, ["vacuum-above-ceiling"]));
        await _bench.PutAsync(Ward.FullLine("o0", 5));
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();

        Assert.Equal(("active", 1), await TheyAreAsync());
        var silent = (await _bench.FindingsAsync()).Where(record => record.Kind != FindingKind.CannotTell && FindingContent.Read(record.Content.Span).Withheld == Withholding.Silent);
        Assert.Equal(["regulator-on-full-line"], silent.Select(record => record.Check).Distinct(StringComparer.Ordinal), StringComparer.Ordinal);
    }
}
