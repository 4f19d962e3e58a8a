using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary><c>explain FINDING</c> once another rule set is in force: it tells of the one by which the finding was judged.</summary>
public sealed class ExplainOtherPolicyTests : IAsyncLifetime
{
    // A site's own document, which is neither shipped nor in the settings that explain is run with.
    private static readonly RuleSetReading Site = RuleSetReader.Read(
        Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(ShippedRuleSets.Bytes("strict-ranges").Span)
            .Replace("name: strict-ranges", "name: site-limits", StringComparison.Ordinal)
            .Replace("adult: { limit: \"150 mm[Hg]\"", "adult: { limit: \"140 mm[Hg]\"", StringComparison.Ordinal)),
        "site-limits.yaml");

    private readonly GivenFolder _folder = new();
    private PipelineBench _bench = null!;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        foreach (var resource in Ward.Tube.Prepend(Ward.Patient))
        {
            await _bench.PutAsync(resource);
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _bench.DisposeAsync();
        _folder.Dispose();
    }

    [Theory]
    [InlineData(FindingKind.Occurrence)]
    [InlineData(FindingKind.Spell)]
    public async Task WhatALooserRuleSetEnded_IsToldByTheOneThatFoundIt_WithItsLimitAndItsAirway(FindingKind kind)
    {
        await JudgeAsync(Site, Ward.Vacuum("o1", 180, 10));
        await JudgeAsync(ShippedRuleSets.Load("guideline-2022"));

        var (exit, text, errors) = await ExplainAsync(kind);

        Assert.Equal((0, ""), (exit, errors));
        Assert.All(
            [
                "vacuum-above-ceiling  Patient/p  cleared",
                "Charted vacuum 180 mmHg is above the adult ceiling of 140 mmHg.",
                "Breach is     above 140 mmHg",
                $"Rule set      site-limits 1.0.0 (sha256 {Site.RuleSet!.Sha256}), basis {Site.RuleSet.Sha256}",
                "Since then    judged by guideline-2022 ",
                "Device/ett: tracheal tube, inner diameter 8 mm",
                "ended: by the policy now in force it is no finding  (audit entry ",
                "the same came out (same identifier, verdict and value)",
            ],
            words => Assert.Contains(words, text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task WhatWasOverWhenTheRuleSetChanged_KeepsTheLimitAndTheNameOfTheOldOne()
    {
        await JudgeAsync(Site, Ward.Vacuum("o1", 220, 10), Ward.Vacuum("o2", 100, 20));
        await JudgeAsync(ShippedRuleSets.Load("guideline-2022"));

        foreach (var kind in new[] { FindingKind.Occurrence, FindingKind.Spell })
        {
            var (exit, text, errors) = await ExplainAsync(kind);
            Assert.Equal((0, ""), (exit, errors));
            Assert.Contains("Rule set      site-limits 1.0.0", text, StringComparison.Ordinal);
            Assert.Contains("Breach is     above 140 mmHg", text, StringComparison.Ordinal);
            Assert.Contains("Ended by:\n  Observation/o2 version 1", text.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task WhatWasTakenBackUnderTheNewRuleSet_IsStillToldByTheOld()
    {
        await JudgeAsync(Site, Ward.Vacuum("o1", 180, 10));
        await JudgeAsync(ShippedRuleSets.Load("guideline-2022"), Ward.Vacuum("o1", 180, 10, status: "entered-in-error"));

        var (exit, text, _) = await ExplainAsync(FindingKind.Occurrence);

        Assert.Equal(0, exit);
        Assert.Contains("Patient/p  withdrawn", text, StringComparison.Ordinal);
        Assert.Contains("Rule set      site-limits 1.0.0", text, StringComparison.Ordinal);
        Assert.Contains("above the adult ceiling of 140 mmHg", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatTheOldRuleSetFindsAgain_IsToldOfTheJudgementNow()
    {
        await JudgeAsync(Site, Ward.Vacuum("o1", 180, 10));
        await JudgeAsync(ShippedRuleSets.Load("guideline-2022"));
        await JudgeAsync(Site);

        foreach (var kind in new[] { FindingKind.Occurrence, FindingKind.Spell })
        {
            var (exit, text, _) = await ExplainAsync(kind);
            Assert.Equal(0, exit);
            Assert.Contains("Patient/p  open", text, StringComparison.Ordinal);
            Assert.DoesNotContain("Since then", text, StringComparison.Ordinal);
        }
    }

    // A ledger from before documents were kept.
    [Fact]
    public async Task WhereTheLedgerHoldsNoDocument_ItIsAskedFor_AndTheRightOneGivenComesOutTheSame()
    {
        await JudgeAsync(Site with { Document = default }, Ward.Vacuum("o1", 180, 10));
        await JudgeAsync(ShippedRuleSets.Load("guideline-2022"));

        var (without, text, missing) = await ExplainAsync(FindingKind.Spell);
        var (with, _, _) = await ExplainAsync(FindingKind.Spell, "--rules", _folder.File("site-limits.yaml", Site.Document.ToArray()));

        Assert.Equal((2, 0), (without, with));
        Assert.StartsWith("AG6104", missing, StringComparison.Ordinal);
        Assert.Contains("Rule set      site-limits 1.0.0", text, StringComparison.Ordinal);
    }

    // Of two rule sets one limit and the other's name would mislead: what came out otherwise stands among the differences alone.
    [Fact]
    public async Task WhatAnotherRuleSetMakesOfIt_IsToldAsADifference_BesideWhatWasRecorded()
    {
        await JudgeAsync(Site, Ward.Vacuum("o1", 220, 10));

        var (exit, text, errors) = await ExplainAsync(FindingKind.Occurrence, "--rules", "guideline-2022");

        Assert.Equal(1, exit);
        Assert.StartsWith("AG6105", errors, StringComparison.Ordinal);
        Assert.Contains("above the adult ceiling of 140 mmHg", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Breach is     at or above 200", text, StringComparison.Ordinal);
        Assert.Contains("limit: recorded 140, now 200", text, StringComparison.Ordinal);
        Assert.Contains("Device/ett: tracheal tube", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task JsonNamesBothRuleSets()
    {
        await JudgeAsync(Site, Ward.Vacuum("o1", 180, 10));
        await JudgeAsync(ShippedRuleSets.Load("guideline-2022"));

        var (_, json, _) = await ExplainAsync(FindingKind.Occurrence, "--format", "json");
        using var told = JsonDocument.Parse(json);

        Assert.Equal(
            ("site-limits", "guideline-2022", 140),
            (told.RootElement.GetProperty("ruleSet").GetProperty("name").GetString(), told.RootElement.GetProperty("judgedSinceBy").GetProperty("name").GetString(),
                told.RootElement.GetProperty("limit").GetProperty("value").GetInt32()));
    }

    [Fact]
    public async Task ADiameterWhoseNewerRowCannotBeRead_IsNotToldAsTheOneInUse()
    {
        await JudgeAsync(
            Site,
            """{"resourceType":"Observation","id":"size","status":"final","code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"tube-inner-diameter"}]},"subject":{"reference":"Patient/p"},"effectiveDateTime":"2026-03-02T08:20:00Z","valueString":"as before"}""",
            Ward.Vacuum("o1", 180, 30));

        var (exit, text, _) = await ExplainAsync(FindingKind.Spell);

        Assert.Equal(0, exit);
        Assert.Contains("Device/ett: tracheal tube, inner diameter not known: 8 mm was charted, and a newer row of it could not be read or two differ, from ", text, StringComparison.Ordinal);
    }

    private async Task JudgeAsync(RuleSetReading rules, params string[] resources)
    {
        var set = FewChecks.Of(rules.RuleSet!);
        _bench.Basis = _bench.Basis with
        {
            Rules = set,
            Document = rules.Document.IsEmpty ? null : new RuleDocument(set.Sha256, rules.Document),
            Names = _bench.Basis.Names with { RuleSet = set.Name, RuleSetVersion = set.Version, RuleSetSha256 = set.Sha256, BasisSha256 = set.Sha256 },
        };
        await _bench.RestartAsync();
        foreach (var resource in resources)
        {
            await _bench.PutAsync(resource);
        }

        await _bench.RoundAsync();
    }

    private async Task<(int Exit, string Text, string Errors)> ExplainAsync(FindingKind kind, params string[] more)
    {
        var key = (await _bench.FindingsAsync()).Single(record => record.Check == "vacuum-above-ceiling" && record.Kind == kind).Key;
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["explain", key.ToString(), "--data", _bench.DataFolder, .. more]);
        return (exit, stdout, stderr);
    }
}
