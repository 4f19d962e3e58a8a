using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.Host.Tests.Service;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.SignOffs;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary><c>rules promote|withdraw|restore|signed</c>, beside a running service and on a ledger that nobody holds.</summary>
public sealed class SignOffCommandTests
{
    private static readonly string[] Person = ["--by", "A. Example", "--reason", "The committee met on 2 March."];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static Task<(int Exit, string Output, string Errors)> RunAsync(string data, params string[] arguments) =>
        InProcessCheck.RunAsync(["rules", .. arguments, "--data", data]);

    // As the service's loop does, while the command waits for its answer.
    private static async Task<(int Exit, string Output, string Errors)> BesideAsync(GivenService service, params string[] arguments)
    {
        var asked = RunAsync(service.Folder, arguments);
        var step = service.Services.GetRequiredService<SignOffStep>();
        while (!asked.IsCompleted)
        {
            await step.StepAsync(Stop);
            await Task.Yield();
        }

        return await asked;
    }

    [Fact]
    public async Task OnAServerOfItsOwn_NothingSpeaksUntilAPersonPromotes_AndItIsTakenUpWhileTheServiceRuns()
    {
        await using var service = await GivenService.StartAsync("AirwayGuard:Rules=guideline-2022");
        var basis = service.Services.GetRequiredService<BasisInForce>();
        Assert.Equal((true, false, "guideline-2022"), (basis.Current.Live, basis.Current.Speaks, basis.Current.Rules.Name));
        Assert.Contains("until a named person promotes the rules", await service.TextAsync("/"), StringComparison.Ordinal);
        Assert.Contains("airwayguard_live 0", await service.TextAsync("/metrics"), StringComparison.Ordinal);

        var (exit, output, _) = await BesideAsync(service, ["promote", "strict-ranges", .. Person]);

        Assert.Equal((0, "strict-ranges 1.0.0 is in force, and all its checks speak. Signed off by A. Example."), (exit, output.TrimEnd().Split('\n')[^1]));
        Assert.Equal((true, "strict-ranges"), (basis.Current.Speaks, basis.Current.Rules.Name));
        Assert.Contains("strict-ranges 1.0.0, live: findings are written to the server.", await service.TextAsync("/"), StringComparison.Ordinal);
        Assert.Contains("Sign-off: strict-ranges 1.0.0 is in force", service.Log, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AWithdrawalAndARestore_AreTakenUpTheSameWay_AndSignedListsThem()
    {
        await using var service = await GivenService.StartAsync();
        var basis = service.Services.GetRequiredService<BasisInForce>();
        await BesideAsync(service, ["promote", "strict-ranges", .. Person]);
        await BesideAsync(service, ["withdraw", "--check", "pass-too-long", "--unit", "Location/icu", .. Person]);
        Assert.False(basis.Current.SignedOff.Speaks("pass-too-long", ["Location/icu"]));
        await BesideAsync(service, ["promote", "guideline-2022", .. Person]);
        Assert.Equal("guideline-2022", basis.Current.Rules.Name);

        var (exit, said, _) = await BesideAsync(service, ["restore", .. Person]);

        Assert.Equal((0, "strict-ranges 1.0.0 is in force again, and speaks where it spoke. Restored by A. Example.\n"), (exit, said));
        Assert.Equal("strict-ranges", basis.Current.Rules.Name);
        var (listed, list, _) = await RunAsync(service.Folder, "signed");
        Assert.Equal(0, listed);
        var lines = list.Split('\n');
        Assert.Contains("withdrawn  strict-ranges 1.0.0 (", lines[1], StringComparison.Ordinal);
        Assert.EndsWith("pass-too-long in Location/icu  by A. Example: The committee met on 2 March.", lines[1], StringComparison.Ordinal);
        Assert.Contains("restored   strict-ranges 1.0.0 (", lines[3], StringComparison.Ordinal);
        Assert.Contains("Everywhere: all 44 checks speak.", lines, StringComparer.Ordinal);
        Assert.Contains("Location/icu: 43 of 44 checks speak, all but pass-too-long.", lines, StringComparer.Ordinal);
    }

    [Fact]
    public async Task ARefusedSet_LeavesTheOneInForce()
    {
        await using var service = await GivenService.StartAsync();
        using var folder = new GivenFolder();
        await BesideAsync(service, ["promote", "strict-ranges", .. Person]);
        var faulty = folder.File("site.yaml", "schema: 1", "name: site", "version: 1", "title: Site", "from: strict-ranges", "rules:", "  - id: pass-too-long", "    severity: hih");

        var (exit, output, errors) = await BesideAsync(service, ["promote", faulty, .. Person]);

        Assert.Equal((1, ""), (exit, output));
        Assert.Contains("AG3304 The severity is 'hih'. Did you mean high?", errors, StringComparison.Ordinal);
        Assert.Equal("strict-ranges", service.Services.GetRequiredService<BasisInForce>().Current.Rules.Name);
    }

    [Fact]
    public async Task ASetWhoseCasesDoNotHold_IsNotPromoted()
    {
        await using var service = await GivenService.StartAsync();
        using var folder = new GivenFolder();
        var site = folder.File("site.yaml", "schema: 1", "name: site", "version: 1", "title: Site", "from: strict-ranges");
        folder.File(
            "site.cases.yaml", "schema: 1", "cases:", "  - case: a pass of 16 s is within the limit", "    about: pass-too-long", "    born: 66 years", "    chart:",
            "      - { at: 10:00:00, until: 10:00:16, suction-pass: yes }");

        var (exit, _, errors) = await BesideAsync(service, ["promote", site, .. Person]);

        Assert.Equal(1, exit);
        Assert.Contains("unexpected pass-too-long at 10:00", errors, StringComparison.Ordinal);
        Assert.Contains("AG3609  ", errors, StringComparison.Ordinal);
        Assert.Empty(await service.Ledger.SignOffsAsync(Stop));
    }

    [Fact]
    public async Task OnALedgerThatNobodyHolds_TheVerbWritesItself_AndTheNextStartGoesByIt()
    {
        await using var bench = await PipelineBench.StartAsync(Ward.Morning);
        await bench.StopAsync();

        var (exit, output, _) = await RunAsync(bench.DataFolder, ["promote", "guideline-2022", "--check", "pass-too-long", .. Person]);

        Assert.Equal((0, "guideline-2022 1.0.0 is in force, and pass-too-long speaks. Signed off by A. Example."), (exit, output.TrimEnd().Split('\n')[^1]));
        await bench.RestartAsync();
        var now = await RulesInForce.OfAsync(bench.Ledger, ShippedRuleSets.Load("strict-ranges").RuleSet!, null, Stop);
        Assert.Equal("guideline-2022", now.Set!.Name);
        Assert.True(now.SignedOff.Speaks("pass-too-long", []));
        Assert.False(now.SignedOff.Speaks("vacuum-above-ceiling", []));
    }

    [Theory]
    [InlineData("live", "AirwayGuard:Mode is live in the settings.")]
    [InlineData(null, null)]
    public async Task WhatTheSettingsLetSpeak_StandsInTheTrailToo(string? mode, string? reason)
    {
        await using var service = await GivenService.StartAsync(mode is null ? [] : [$"AirwayGuard:Mode={mode}"]);

        Assert.Equal(reason, (await service.Ledger.SignOffsAsync(Stop)).SingleOrDefault()?.Reason);
        Assert.Equal(mode is not null, service.Services.GetRequiredService<BasisInForce>().Current.Speaks);
    }

    [Fact]
    public async Task WhereTheModeIsSilent_NothingSpeaksWhateverIsSigned()
    {
        await using var service = await GivenService.StartAsync("AirwayGuard:Mode=silent");
        await BesideAsync(service, ["promote", "strict-ranges", .. Person]);

        Assert.False(service.Services.GetRequiredService<BasisInForce>().Current.Speaks);
    }

    [Theory]
    [InlineData("promote strict-ranges --reason r", 64, "AG1013  rules promote --by: ")]
    [InlineData("promote --by a --reason r", 64, "AG1013  rules promote RULES: ")]
    [InlineData("promote strict-range --by a --reason r", 2, "strict-range: AG3001 There is no such rule set or file. Did you mean strict-ranges?")]
    [InlineData("withdraw --by a", 64, "AG1013  rules withdraw --reason: ")]
    [InlineData("restore --by a --reason r", 1, "AG3605  rules restore: ")]
    [InlineData("withdraw --by a --reason r", 1, "AG3605  rules withdraw: ")]
    [InlineData("promote strict-ranges --by a --reason r --unit icu", 64, "AG3602  --unit: 'icu' is no Location/id")]
    [InlineData("promote strict-ranges --by a --reason r --check pass", 1, "AG3013  --check: strict-ranges has no check 'pass'")]
    public async Task WhatCannotBeDone_HasACodeAndChangesNothing(string arguments, int exit, string said)
    {
        await using var bench = await PipelineBench.StartAsync(Ward.Morning);
        await bench.StopAsync();

        var (code, output, errors) = await RunAsync(bench.DataFolder, arguments.Split(' '));

        Assert.Equal((exit, ""), (code, output));
        Assert.Contains(errors.Split('\n'), line => line.StartsWith(said, StringComparison.Ordinal));
        await bench.RestartAsync();
        Assert.Empty(await bench.Ledger.SignOffsAsync(Stop));
    }

    [Fact]
    public async Task ALedgerThatIsNotThere_IsToldAsSuch()
    {
        using var folder = new GivenFolder();

        Assert.Equal(2, (await RunAsync(folder.Path, ["promote", "strict-ranges", .. Person])).Exit);
        Assert.Equal(2, (await RunAsync(folder.Path, "signed")).Exit);
        Assert.False(Directory.Exists(folder.Of("sign-offs")));
    }
}
