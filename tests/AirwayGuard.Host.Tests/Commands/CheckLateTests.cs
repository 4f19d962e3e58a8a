using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>What became known late, and what another check says already, is listed and said to be so.</summary>
public sealed class CheckLateTests : IDisposable
{
    private const string FullLine = """{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"full-line"}]}""";

    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // A row charted after more than two hours blames nobody for being late, it only says so.
    [Theory]
    [InlineData("2026-03-01T11:55:00Z", false)]
    [InlineData("2026-03-01T11:55:01Z", true)]
    [InlineData("2026-03-01T12:55:00+01:00", false)]
    public async Task AFindingIsLateWhereItsRowBecameKnownMoreThanTwoHoursAfterItHappened(string lastUpdated, bool isLate)
    {
        var row = Given.Vacuum("high", "220", at: "2026-03-01T09:55:00Z", meta: $$"""{"lastUpdated":"{{lastUpdated}}"}""");
        var answer = await CheckAnswer.OfAsync(_folder.File("rows.ndjson", Given.Adult, row));

        var finding = Assert.Single(answer.Report.GetProperty("findings").EnumerateArray());
        Assert.Equal(isLate, finding.TryGetProperty("late", out var late) && late.GetBoolean());
    }

    [Fact]
    public async Task WithoutASavedTimeNothingIsCalledLate()
    {
        var answer = await CheckAnswer.OfAsync(_folder.File("rows.ndjson", Given.Adult, Given.HighVacuum));

        Assert.False(Assert.Single(answer.Report.GetProperty("findings").EnumerateArray()).TryGetProperty("late", out _));
    }

    // A spell is as late as its latest breach, like its value.
    [Theory]
    [InlineData("2026-03-01T20:00:00Z", "2026-03-01T10:01:00Z", false)]
    [InlineData("2026-03-01T09:01:00Z", "2026-03-01T20:00:00Z", true)]
    public async Task ASpellIsAsLateAsItsLatestBreach(string first, string second, bool isLate)
    {
        var answer = await CheckAnswer.OfAsync(_folder.File(
            "rows.ndjson", Given.Adult,
            Given.Vacuum("a", "220", at: "2026-03-01T09:00:00Z", meta: $$"""{"lastUpdated":"{{first}}"}"""),
            Given.Vacuum("b", "230", at: "2026-03-01T10:00:00Z", meta: $$"""{"lastUpdated":"{{second}}"}""")));

        Assert.Equal(isLate, Assert.Single(answer.Report.GetProperty("findings").EnumerateArray()).TryGetProperty("late", out _));
    }

    [Fact]
    public async Task WhatIsWithheldIsListedAndCounted()
    {
        var rows = _folder.File("rows.ndjson", Given.Adult, Given.HighVacuum, Given.Observation("mode", FullLine, "valueCodeableConcept", "2026-03-01T09:00:00Z", code: "regulator-mode"));
        var answer = await CheckAnswer.OfAsync(rows);
        var (_, text, _) = await InProcessCheck.RunAsync(["check", rows]);

        Assert.Equal(["regulator-on-full-line mode open", "vacuum-above-ceiling high open"], answer.Findings.Select(one => one.Replace("Observation/", "", StringComparison.Ordinal)), StringComparer.Ordinal);
        var raised = answer.Report.GetProperty("raised");
        Assert.Equal((2, 1, 1), (raised.GetProperty("findings").GetInt32(), raised.GetProperty("shown").GetInt32(), raised.GetProperty("withheld").GetInt32()));
        Assert.Contains("withheld: regulator-on-full-line says it", text, StringComparison.Ordinal);
        Assert.Contains("2 findings, 1 of them withheld, ", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TheTextSaysWhatIsLate()
    {
        var rows = _folder.File("rows.ndjson", Given.Adult, Given.Vacuum("high", "220", meta: """{"lastUpdated":"2026-03-02T09:00:00Z"}"""));

        var (_, text, _) = await InProcessCheck.RunAsync(["check", rows]);

        Assert.Contains("2026-03-01T09:55:00Z  known late", text, StringComparison.Ordinal);
    }
}
