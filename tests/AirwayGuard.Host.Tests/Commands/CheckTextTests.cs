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

    [Fact]
    public async Task OneOfAThingIsCountedAsOne()
    {
        var (_, text) = await TextAsync(Given.Adult, Given.HighVacuum);

        Assert.Contains("Judged: 0 passes, 0 sessions, 0 orders, 1 setting", text, StringComparison.Ordinal);
        Assert.Contains("1 finding, ", text, StringComparison.Ordinal);
        Assert.DoesNotContain("1 findings", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AUnitThatIsNotKnownIsSaidToBeSo()
    {
        var report = await CheckAnswer.OfAsync(_folder.File("unit.ndjson", Given.Adult, Given.Vacuum("odd", "30", unit: "furlong", ucum: "furlong")));

        var doubtful = Assert.Single(report.Report.GetProperty("findings").EnumerateArray(), one => one.GetProperty("check").GetString() == "vacuum-unit-doubtful");
        Assert.Equal("unit not recognised", doubtful.GetProperty("value").GetProperty("unit").GetString());
        Assert.Equal("30 (unit not recognised)", Core.Findings.Wording.Amount(30m, Core.Quantities.Unit.Unknown));
    }

    [Fact]
    public async Task EveryProblemSaysWhyInASentence()
    {
        string[] rows = [Given.Adult.Replace("1961", "2061", StringComparison.Ordinal), Given.HighVacuum, Given.Vacuum("minus", "-120"), Given.Vacuum("later", "120", at: "2026-03-01T20:00:00Z")];
        var answer = await CheckAnswer.OfAsync(_folder.File("why.ndjson", rows), "--as-of", "2026-03-01T12:00:00Z");

        var why = answer.Report.GetProperty("problems").EnumerateArray().ToDictionary(one => one.GetProperty("code").GetString()!, one => one.GetProperty("why").GetString()!, StringComparer.Ordinal);
        Assert.All(["AG2105", "AG2107", "AG2112"], code => Assert.Matches("^[A-Z][^.]*[.]$", why[code]));
    }

    [Fact]
    public async Task NoProblemSaysAThingTwice()
    {
        Directory.CreateDirectory(_folder.Of("empty"));
        var (_, empty, _) = await InProcessCheck.RunAsync(["check", _folder.Of("empty")]);
        var (_, signs) = await TextAsync(Given.Adult, Given.HighVacuum, Given.Vacuum("minus", "-120"));

        Assert.Contains("AG2010  empty: the folder holds no .json or .ndjson file. Give a folder with FHIR JSON", empty, StringComparison.Ordinal);
        Assert.Contains("with and without a minus sign. Find out", signs, StringComparison.Ordinal);
        Assert.Equal(2, signs.Split("the magnitude was judged").Length);
    }

    private async Task<(int Exit, string Text)> TextAsync(params string[] rows)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["check", _folder.File("rows.ndjson", rows)]);
        Assert.Empty(stderr);
        return (exit, stdout);
    }
}
