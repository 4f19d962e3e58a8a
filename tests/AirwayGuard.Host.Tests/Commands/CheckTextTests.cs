using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>The words a therapist reads.</summary>
public sealed class CheckTextTests : IDisposable
{
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task AFindingGivesValueLimitSourceAndWhatClearsIt()
    {
        var (exit, text) = await TextAsync(Given.Adult, Given.HighVacuum);

        Assert.Equal(1, exit);
        Assert.All(
            [
                "HIGH  vacuum-above-ceiling  Patient/p  2026-03-01T09:00:00Z",
                "Charted vacuum 220 mmHg is above the adult ceiling of 150 mmHg.",
                "at most 150 mmHg for this age",
                "Clears when such a reading, taken with the tubing occluded, is charted.",
                "Source: nsw-aci-2014. About: Observation/high",
                "for licensed staff to weigh; local policy decides.",
            ],
            words => Assert.Contains(words, text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task ALimitFromMemoryIsMarkedBesideItsSource()
    {
        var (_, text) = await TextAsync(Given.Adult.Replace("1961", "2016", StringComparison.Ordinal), Given.HighVacuum);

        Assert.Contains("the child ceiling of 120 mmHg", text, StringComparison.Ordinal);
        Assert.Matches("Source: ntsp-paediatric \\([^)]*memory[^)]*\\)", text);
    }

    [Fact]
    public async Task RepeatedAndClearedFindingsSaySo()
    {
        var (_, text) = await TextAsync(Given.Adult, Given.HighVacuum, Given.Vacuum("again", "230"), Given.Vacuum("fine", "120", at: "2026-03-01T11:00:00Z"));

        Assert.Contains("2 times, latest 2026-03-01T09:55:00Z  cleared", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatCannotBeToldNamesWhatIsMissing()
    {
        var (exit, text) = await TextAsync("""{"resourceType":"Patient","id":"p"}""", Given.HighVacuum);

        Assert.Equal(0, exit);
        Assert.Contains("CANNOT TELL  vacuum-above-ceiling  Patient/p", text, StringComparison.Ordinal);
        Assert.Contains("missing birth date", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task NoBreachIsNeverCalledAllWell()
    {
        var (exit, text) = await TextAsync(Given.Adult, Given.Vacuum("fine", "120"));

        Assert.Equal(0, exit);
        Assert.Contains("No breach found; that is not \"all well\"", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task UnreadableInputIsToldWithCodePlaceAndAdviceAndTheCautionStays()
    {
        var (exit, text) = await TextAsync(Given.Adult, "torn", Given.HighVacuum);

        Assert.Equal(2, exit);
        Assert.Contains("AG2003  rows.ndjson:2: The bytes are not one FHIR resource. Send one JSON resource", text, StringComparison.Ordinal);
        Assert.Contains("Something could not be read", text, StringComparison.Ordinal);
        Assert.Contains("for licensed staff to weigh; local policy decides.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("..", text, StringComparison.Ordinal);
    }

    private async Task<(int Exit, string Text)> TextAsync(params string[] rows)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["check", _folder.File("rows.ndjson", rows)]);
        Assert.Empty(stderr);
        return (exit, stdout);
    }
}
