using System.Text.Json;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary><c>survey</c> over a ledger, also while a service holds it.</summary>
public sealed class SurveyLedgerTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    public async ValueTask InitializeAsync() => _bench = await PipelineBench.StartAsync(Ward.Morning, new BenchSettings { IsWhole = true });

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task WhatWasSweptIsSurveyedWhileTheServiceHoldsTheLedger_AsItStandsNow()
    {
        await PutAsync(
            Ward.Patient, Wall.Place("icu", "ICU", kind: "wa"), Wall.Place("hdu", "HDU", kind: "wa"), Wall.Place("bed", "Bed 1", "icu"), Wall.Device("o", "wall-vacuum-outlet", "bed"),
            Wall.Device("r", "vacuum-regulator", "bed"), Wall.Reading("w", "Device/o", "420", "2026-03-01T07:00:00Z"), Wall.Reading("low", "Device/o", "250", "2026-03-02T07:00:00Z"),
            Wall.Reading("s", "Patient/p", "110", "2026-03-02T07:30:00Z", device: "Device/r", code: "vacuum-set"));

        var (exit, text, errors) = await SurveyAsync("--as-of", "2026-03-02T08:00:00Z");

        Assert.Equal((1, ""), (exit, errors));
        Assert.Contains("ICU (Location/icu)\n  Device/o  Bed 1\n    Full line    250 mm[Hg]  2026-03-02T07:00:00Z, 1 h ago\n    Supply       LOW", text, StringComparison.Ordinal);
        Assert.Contains("Device/r (at the same place), set to 110 mm[Hg] at 2026-03-02T07:30:00Z", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Patient", text, StringComparison.Ordinal);

        await _bench.DeleteAsync("Observation/low");
        await PutAsync(Wall.Place("bed", "Bed 1", "hdu"));
        var (after, then, _) = await SurveyAsync("--as-of", "2026-03-02T08:00:00Z");

        Assert.Equal(0, after);
        Assert.Contains("HDU (Location/hdu)\n  Device/o  Bed 1\n    Full line    420 mm[Hg]", then, StringComparison.Ordinal);
        Assert.DoesNotContain("ICU", then, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ALedgerAndItsFilesSayTheSame()
    {
        using var folder = new GivenFolder();
        var input = Path.Combine(ScenarioFolders.All.Single(one => one.EndsWith("89-wall-survey", StringComparison.Ordinal)), "input.json");
        await InProcessCheck.RunAsync(["check", input, "--ledger", folder.Of("ledger")]);

        var ofLedger = await InProcessCheck.RunAsync(["survey", "--data", folder.Path, "--as-of", "2026-03-10T08:00:00Z", "--format", "json"]);
        var ofFiles = await InProcessCheck.RunAsync(["survey", input, "--format", "json"]);

        Assert.Equal(ofFiles, ofLedger);
        using var told = JsonDocument.Parse(ofLedger.Stdout);
        Assert.Equal(2, told.RootElement.GetProperty("units").GetArrayLength());
    }

    [Fact]
    public async Task AFolderWithoutALedgerIsToldByItsCode()
    {
        using var folder = new GivenFolder();

        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["survey", "--data", folder.Path]);

        Assert.Equal((2, ""), (exit, stdout));
        Assert.StartsWith("AG1606  ", stderr, StringComparison.Ordinal);
    }

    private async Task PutAsync(params string[] resources)
    {
        foreach (var resource in resources)
        {
            await _bench.PutAsync(resource);
        }

        await _bench.RoundAsync();
    }

    private async Task<(int Exit, string Text, string Errors)> SurveyAsync(params string[] more)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["survey", "--data", _bench.DataFolder, .. more]);
        return (exit, stdout, stderr);
    }
}
