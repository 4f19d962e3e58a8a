using System.Text.Json;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary><c>explain FINDING</c> on a ledger that a service holds open, and on one at rest.</summary>
public sealed class ExplainCommandTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => _bench = await PipelineBench.StartAsync(Ward.Morning);

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task AFlagIsExplainedWhileTheServiceHoldsTheLedger_AndComesOutTheSame()
    {
        await PutAsync([Ward.Patient, .. Ward.Tube, Ward.Vacuum("o1", 220, 10)]);
        await _bench.RoundAsync();
        var flag = await KeyAsync("Flag");

        var (exit, text, errors) = await ExplainAsync(flag);

        Assert.Equal((0, ""), (exit, errors));
        Assert.All(
            [
                $"Flag {flag}",
                "HIGH  vacuum-above-ceiling  Patient/p  open",
                "Charted vacuum 220 mmHg is above the adult ceiling of 150 mmHg.",
                "Breach is     above 150 mmHg",
                "Source        NSW ACI: suctioning an adult ICU patient, version 2.2, 2014 (SHPN 140006), recommendation 12 [nsw-aci-2014]",
                $"{_bench.Basis.Names.RuleSet} {_bench.Basis.Names.RuleSetVersion} (sha256 {_bench.Basis.Names.RuleSetSha256})",
                "Device/ett: tracheal tube, inner diameter 8 mm, from 2026-03-02T07:00:00Z",
                "Observation/o1 version 1: vacuum-pressure 220 mm[Hg], charted \"220 mmHg\", happened 2026-03-02T08:10:00Z, known 2026-03-02T08:00:00Z",
                "  raised  (audit entry ",
                "on the server as id ",
                "Ends with     ",
                "the same came out (same identifier, verdict and value)",
                "for licensed staff to weigh; local policy decides.",
            ],
            words => Assert.Contains(words, text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task AnEstimateIsToldBesideTheValue()
    {
        var open = Ward.Catheter("pass", 14, 10).Replace("\"valueQuantity\"", "\"component\":[{\"code\":{\"text\":\"Suction\",\"coding\":[{\"system\":\"https://airwayguard.example.org/fhir/CodeSystem/airway-care\",\"code\":\"suction-system\"}]},\"valueCodeableConcept\":{\"coding\":[{\"system\":\"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer\",\"code\":\"open\"}]}}],\"valueQuantity\"", StringComparison.Ordinal);
        await PutAsync([Ward.Patient, .. Ward.Tube, open, Ward.Pass("duration", 10, 10), Ward.Vacuum("o1", 220, 10)]);
        await _bench.RoundAsync();

        var (_, text, _) = await ExplainAsync(await KeyAsync("Flag"));
        var (_, json, _) = await ExplainAsync(await KeyAsync("DetectedIssue"), "--format", "json");

        Assert.Contains("Estimate      Rough bench estimate, no limit: 220 mmHg through 14 Fr in 8 mm, open, may bring the trachea about 1.5 cmH2O, between 0.5 and 3,", text, StringComparison.Ordinal);
        using var told = JsonDocument.Parse(json);
        Assert.Equal(1.5m, told.RootElement.GetProperty("estimate").GetProperty("about").GetDecimal());
    }

    [Fact]
    public async Task WhatCouldNotBeTold_IsExplainedWithWhatIsMissing_AndComesOutTheSame()
    {
        await PutAsync(Ward.Patient.Replace(",\"birthDate\":\"1961-05-04\"", "", StringComparison.Ordinal), Ward.Vacuum("o1", 110, 10), Ward.Vacuum("o2", 115, 20));
        await _bench.RoundAsync(TimeSpan.FromHours(3));
        var key = (await _bench.FindingsAsync()).Single(record => record is { Kind: FindingKind.CannotTell, Check: "vacuum-above-ceiling" }).Key.ToString();

        var (exit, text, errors) = await ExplainAsync(key);

        Assert.Equal((0, ""), (exit, errors));
        Assert.All(
            [
                $"Could not be told {key}",
                "vacuum-above-ceiling  Patient/p  not judged: something is missing",
                "Happened      2 times, first 2026-03-02T08:10:00Z, latest 2026-03-02T08:20:00Z",
                "Missing       birth date",
                "  Observation/o1\n  Observation/o2",
                "  could not be told  (audit entry ",
                "Ends with     charting what is missing: birth date",
                "the same came out (it lacks the same)",
            ],
            words => Assert.Contains(words, text, StringComparison.Ordinal));
        var (_, json, _) = await ExplainAsync(key, "--format", "json");
        using var told = JsonDocument.Parse(json);
        Assert.Equal(
            (JsonValueKind.Null, "birth date", 2),
            (told.RootElement.GetProperty("resource").ValueKind, told.RootElement.GetProperty("missing").GetString(), told.RootElement.GetProperty("count").GetInt32()));
    }

    [Fact]
    public async Task WhatCanBeToldByNow_SaysSo()
    {
        await PutAsync(Ward.Patient.Replace(",\"birthDate\":\"1961-05-04\"", "", StringComparison.Ordinal), Ward.Vacuum("o1", 110, 10));
        await _bench.RoundAsync(TimeSpan.FromHours(3));
        await PutAsync(Ward.Patient);
        await _bench.RoundAsync();
        var key = (await _bench.FindingsAsync()).Single(record => record is { Kind: FindingKind.CannotTell, Check: "vacuum-above-ceiling" }).Key.ToString();

        var (exit, text, _) = await ExplainAsync(key);

        Assert.Equal(0, exit);
        Assert.Contains("over: what was missing was charted, or it is not asked any more", text, StringComparison.Ordinal);
        Assert.Contains("the same came out (nothing is missing any more)", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("urn:uuid:", 36)]
    [InlineData("", 36)]
    [InlineData("", 9)]
    [InlineData("URN:UUID:", 8)]
    public async Task AnIdentifierIsTakenAsUrn_AsUuid_AndByItsFirstDigits(string prefix, int length)
    {
        await PutAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        var issue = await KeyAsync("DetectedIssue");

        var (exit, text, _) = await ExplainAsync(prefix + issue[..length]);

        Assert.Equal(0, exit);
        Assert.StartsWith($"DetectedIssue {issue}", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task JsonSaysTheSame_WithVersionTimesAndAuditEntries()
    {
        await PutAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();

        var (exit, json, _) = await ExplainAsync(await KeyAsync("DetectedIssue"), "--format", "json");
        using var told = JsonDocument.Parse(json);

        Assert.Equal(0, exit);
        var root = told.RootElement;
        Assert.Equal(("DetectedIssue", "vacuum-above-ceiling", "open", 220), (
            root.GetProperty("resource").GetString(), root.GetProperty("check").GetString(), root.GetProperty("state").GetString(),
            root.GetProperty("value").GetProperty("value").GetInt32()));
        Assert.Equal(("Observation/o1", "1", "2026-03-02T08:10:00Z"), (
            root.GetProperty("rows")[0].GetProperty("resource").GetString(), root.GetProperty("rows")[0].GetProperty("version").GetString(),
            root.GetProperty("rows")[0].GetProperty("happened").GetString()));
        Assert.Equal(JsonValueKind.Null, root.GetProperty("airway").ValueKind);
        Assert.True(root.GetProperty("history").GetArrayLength() >= 2);
        Assert.All(root.GetProperty("history").EnumerateArray(), one => Assert.True(one.GetProperty("auditEntry").GetInt64() > 0));
        Assert.True(root.GetProperty("judgedAgain").GetProperty("same").GetBoolean());
    }

    [Fact]
    public async Task ALedgerAtRestIsExplainedToo_AndItsLockIsLeftAlone()
    {
        await PutAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        var key = await KeyAsync("Flag");
        await _bench.RestartAsync();

        Assert.Equal(0, (await ExplainAsync(key)).Exit);
        await _bench.RestartAsync();
        Assert.Equal(0, (await ExplainAsync(key)).Exit);
    }

    [Fact]
    public async Task AClearedFlagNamesTheRowThatEndedIt_AndAWithdrawnIssueComesOutWithdrawn()
    {
        await PutAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        await PutAsync(Ward.Vacuum("o2", 120, 70));
        await _bench.RoundAsync();
        var cleared = await ExplainAsync(await KeyAsync("Flag"));
        await PutAsync(Ward.Vacuum("o1", 220, 10, status: "entered-in-error"));
        await _bench.RoundAsync();
        var withdrawn = await ExplainAsync(await KeyAsync("DetectedIssue"));

        Assert.Equal((0, 0), (cleared.Exit, withdrawn.Exit));
        Assert.Contains("Ended by:\n  Observation/o2 version 1", cleared.Text.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.Contains("  cleared  (audit entry ", cleared.Text, StringComparison.Ordinal);
        Assert.Contains("the same came out (no breach any more)", withdrawn.Text, StringComparison.Ordinal);
        Assert.Contains("withdrawn: what it rested on was corrected or taken back  (audit entry ", withdrawn.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Flag")]
    [InlineData("DetectedIssue")]
    public async Task WhatAPersonClosedSaysSo_AndComesOutTheSame(string type)
    {
        await PutAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        var issue = (await _bench.AllAsync("DetectedIssue"))[0];
        issue["mitigation"] = JsonNode.Parse("""[{"action":{"text":"Turned down"}}]""");
        await PutAsync(issue.ToJsonString());
        await _bench.RoundAsync();

        var (exit, text, _) = await ExplainAsync(await KeyAsync(type));

        Assert.Equal(0, exit);
        Assert.Contains("vacuum-above-ceiling  Patient/p  closed by a person", text, StringComparison.Ordinal);
        Assert.Contains("  closed by a person  (audit entry ", text, StringComparison.Ordinal);
        Assert.Contains("the same came out (same identifier, verdict and value)", text, StringComparison.Ordinal);
    }

    // The choice is part of the basis, of which the ledger keeps the hash only.
    [Fact]
    public async Task AFindingOfTheStrictestBandComesOutThoughTheSettingsSayCannotTell()
    {
        _bench.Basis = _bench.Basis with { UnknownAge = Core.Judging.UnknownAge.StrictestBand };
        await _bench.RestartAsync();
        await PutAsync("""{"resourceType":"Patient","id":"p"}""", Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();

        var (exit, text, _) = await ExplainAsync(await KeyAsync("Flag"));

        Assert.Equal(0, exit);
        Assert.Contains("Age band      unknown", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task DigitsThatSeveralFindingsBeginWithAreNotEnough()
    {
        await PutAsync(Ward.Patient);
        await _bench.RoundAsync();
        await _bench.Ledger.KeepAsync([Charted.Vacuum(_bench.Ledger, "x", "1", "Patient/p", 60)], null, Stop);
        var work = (await _bench.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.Now, Stop))!;
        FindingRecord Of(string key) => new(
            new Guid(key), FindingKind.Occurrence, "pass-too-long", work.Patient, FindingState.Open, Guid.Empty, 1, 0, 0, false, work.UpTo, "basis-1", "{}"u8.ToArray());
        await _bench.Ledger.DecideAsync(
            new Decision(
                work.Patient, work.UpTo, 0, work.Fence, "basis-1", [Of("0f0e0d0c-0b0a-0908-0706-050403020100"), Of("0f0e0d0c-0b0a-0908-0706-050403020101")], [], [], []), Stop);

        var (exit, _, errors) = await ExplainAsync("0f0e0d0c");

        Assert.Equal(64, exit);
        Assert.StartsWith("AG6102", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnotherRuleSetIsToldAsADifference()
    {
        await PutAsync(Ward.Patient, Ward.Vacuum("o1", 180, 10));
        await _bench.RoundAsync();

        var (exit, text, errors) = await ExplainAsync(await KeyAsync("DetectedIssue"), "--rules", "guideline-2022");

        Assert.Equal(1, exit);
        Assert.Contains("NOT the same", text, StringComparison.Ordinal);
        Assert.Contains("verdict: recorded a breach, now none", text, StringComparison.Ordinal);
        Assert.StartsWith("AG6105  FINDING: Differs: rule set; verdict.", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnotherLimitIsToldByName()
    {
        await PutAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();

        var (exit, text, _) = await ExplainAsync(await KeyAsync("Flag"), "--rules", "guideline-2022");

        Assert.Equal(1, exit);
        Assert.Contains("limit: recorded 150, now 200", text, StringComparison.Ordinal);
        Assert.Contains("limit comparison: recorded Above, now AtOrAbove", text, StringComparison.Ordinal);
        Assert.DoesNotContain("value: recorded", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatAnotherRuleSetJudgedAgain_IsNotToldAsChangedCharting()
    {
        await PutAsync(Ward.Patient, Ward.Vacuum("o1", 220, 10));
        await _bench.RoundAsync();
        var rules = FewChecks.Of(Rules.ShippedRuleSets.Load("guideline-2022").RuleSet!);
        _bench.Basis = _bench.Basis with
        {
            Rules = rules,
            Names = _bench.Basis.Names with { RuleSet = rules.Name, RuleSetVersion = rules.Version, RuleSetSha256 = rules.Sha256, BasisSha256 = new string('c', 64) },
        };
        await _bench.RestartAsync();
        await _bench.RoundAsync();
        await PutAsync(Ward.Vacuum("o1", 230, 10, status: "corrected"));
        await _bench.RoundAsync();

        var (_, text, _) = await ExplainAsync(await KeyAsync("Flag"));

        Assert.Contains("  judged again by another policy  (audit entry ", text, StringComparison.Ordinal);
        Assert.Contains("  changed on changed charting  (audit entry ", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("00000000", 2, "AG6101")]
    [InlineData("not-a-uuid", 64, "AG6103")]
    [InlineData("abc", 64, "AG6103")]
    public async Task WhatCannotBeFoundHasACode(string finding, int expected, string code)
    {
        var (exit, text, errors) = await ExplainAsync(finding);

        Assert.Equal((expected, ""), (exit, text));
        Assert.StartsWith(code, errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AFolderWithoutALedgerHasACode_AndNothingIsMade()
    {
        using var folder = new GivenFolder();

        var (exit, _, errors) = await InProcessCheck.RunAsync(["explain", "0123abcd", "--data", folder.Path]);

        Assert.Equal(2, exit);
        Assert.StartsWith("AG1606", errors, StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder.Path));
    }

    [Fact]
    public async Task AnUnknownOptionOrNoFindingIsWrongUsage()
    {
        Assert.Equal(64, (await InProcessCheck.RunAsync(["explain"])).Exit);
        Assert.Equal(64, (await InProcessCheck.RunAsync(["explain", "0123abcd", "--format", "fhir"])).Exit);
    }

    private async Task PutAsync(params string[] resources)
    {
        foreach (var resource in resources)
        {
            await _bench.PutAsync(resource);
        }
    }

    // Of the check that these tests are about.
    private async Task<string> KeyAsync(string type)
    {
        var kind = type == "Flag" ? FindingKind.Spell : FindingKind.Occurrence;
        var mine = (await _bench.FindingsAsync()).Where(record => record.Check == "vacuum-above-ceiling" && record.Kind == kind).Select(record => record.Key.ToString()).ToHashSet(StringComparer.Ordinal);
        return (await _bench.AllAsync(type)).Select(resource => (string)resource["identifier"]![0]!["value"]!).First(mine.Contains);
    }

    private async Task<(int Exit, string Text, string Errors)> ExplainAsync(string finding, params string[] more)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["explain", finding, "--data", _bench.DataFolder, .. more]);
        return (exit, stdout, stderr);
    }
}
