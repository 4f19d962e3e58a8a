using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

public sealed class CheckUsageTests
{
    [Theory]
    [InlineData("", "PATH")]
    [InlineData("x.json --frob", "--frob")]
    [InlineData("--frob x.json", "--frob")]
    [InlineData("x.json --as-of yesterday", "--as-of")]
    [InlineData("x.json --as-of 2026-03-01", "--as-of")]
    [InlineData("x.json --as-of 2026-03-01T10:00:00", "--as-of")]
    [InlineData("x.json --as-of 2026-02-30T10:00:00Z", "--as-of")]
    [InlineData("x.json --as-of", "--as-of")]
    [InlineData("x.json --format xml", "--format")]
    [InlineData("x.json --unknown-age adult", "--unknown-age")]
    [InlineData("x.json --rules nope", "AG3001")]
    [InlineData("x.json --map nope.json", "AG2208")]
    [InlineData("x.json --map /dev/zero", "AG2002")]
    public async Task WrongUsageExits64AndSaysWhatWasWrongOnStandardErrorAlone(string arguments, string named)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["check", .. arguments.Split(' ', StringSplitOptions.RemoveEmptyEntries)]);

        Assert.Equal(64, exit);
        Assert.Empty(stdout);
        Assert.Contains(named, stderr, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("chek x.json", "AG1013  airwayguard: 'chek' is none of its verbs: check, rules, audit, explain, survey, overrides, parked. ")]
    [InlineData("rules", "AG1013  rules: one of its verbs is missing: list, show, lint, test, compare, schema, promote, withdraw, restore, signed. ")]
    [InlineData("rules frob x", "AG1013  rules: 'frob' is none of its verbs: list, show, lint, test, compare, schema, promote, withdraw, restore, signed. ")]
    [InlineData("rules list more", "AG1013  rules list: 'more' is more than it takes. ")]
    [InlineData("rules show", "AG1013  rules show ID: it is missing. ")]
    [InlineData("check", "AG1013  check PATH: it is missing. ")]
    [InlineData("check x.json --frob", "AG1013  check PATH: --frob is no option of check; write ./--frob for a file of that name. ")]
    [InlineData("check x.json --as-of", "AG1013  check --as-of: its value is missing. ")]
    [InlineData("check x.json --as-of a --as-of b", "AG1013  check --as-of: it is given more than once. ")]
    [InlineData("check x.json --format xml", "AG1013  check --format: it takes text, json or fhir. ")]
    [InlineData("check x.json --unknown-age adult", "AG1013  check --unknown-age: it takes cannot-tell or strictest-band. ")]
    [InlineData("check x.json --as-of 2026-02-30T10:00:00Z", "AG1014  check --as-of: it is no time with an offset, or there is no such time. Write ")]
    [InlineData("audit verify", "AG1013  audit verify --data: the option is missing. ")]
    [InlineData("parked show abc", "AG1013  parked show ID: 'abc' is no whole number, or too large. ")]
    [InlineData("parked show 99999999999999999999", "AG1013  parked show ID: '99999999999999999999' is no whole number, or too large. ")]
    [InlineData("parked drop 1", "AG1013  parked drop --reason: the option is missing. ")]
    [InlineData("explain a1b2 --format xml", "AG1013  explain --format: it takes text or json. ")]
    public async Task WrongUsageHasACodeAndSaysWhatWhereAndWhatToDo(string arguments, string said)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(arguments.Split(' '));

        Assert.Equal(64, exit);
        Assert.Empty(stdout);
        Assert.StartsWith(said, stderr, StringComparison.Ordinal);
        Assert.Single(stderr.Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }

    [Theory]
    [InlineData("2026-03-01T10:00:00Z")]
    [InlineData("2026-03-01T10:00Z")]
    [InlineData("2026-03-01T11:00:00+01:00")]
    [InlineData("2026-03-01T10:00:00.000Z")]
    public async Task AsOfTakesATimeWithAnOffset(string time)
    {
        using var folder = new GivenFolder();

        var answer = await CheckAnswer.OfAsync(folder.File("rows.ndjson", Given.Adult, Given.HighVacuum), "--as-of", time);

        Assert.Equal("2026-03-01T10:00:00Z", answer.Report.GetProperty("asOf").GetString());
        Assert.Equal(1, answer.Exit);
    }

    [Fact]
    public async Task WhatBeginsAfterAsOfIsLeftOutAndCounted()
    {
        using var folder = new GivenFolder();

        var answer = await CheckAnswer.OfAsync(folder.File("rows.ndjson", Given.Adult, Given.HighVacuum), "--as-of", "2026-03-01T08:59:59Z");

        Assert.Equal(0, answer.Exit);
        Assert.Empty(answer.Findings);
        Assert.Equal(["AG2112 --as-of"], answer.Problems);
    }

    [Fact]
    public async Task AFaultOfTheProgramIsLeftToTheProgram_SinceItsMessageMayQuoteWhatWasCharted() =>
        await Assert.ThrowsAsync<InvalidOperationException>(() => Host.Commands.CommandLine.RunAsync(["rules", "list"], new BrokenWriter(), TextWriter.Null));

    [Fact]
    public async Task ALedgerThatCannotBeMadeIsToldAtItsOption()
    {
        using var folder = new GivenFolder();
        var file = folder.File("rows.ndjson", Given.Adult);

        var (exit, _, stderr) = await InProcessCheck.RunAsync(["check", file, "--ledger", file]);

        Assert.Equal(2, exit);
        Assert.StartsWith("AG1604  check --ledger: ", stderr, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnUnknownVerbExits64()
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["chek", "x.json"]);

        Assert.Equal(64, exit);
        Assert.Empty(stdout);
        Assert.Contains("chek", stderr, StringComparison.Ordinal);
    }

    private sealed class BrokenWriter : StringWriter
    {
        public override void WriteLine(string? value) => throw new InvalidOperationException("Patient's own words");
    }
}
