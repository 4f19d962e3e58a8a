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
    [InlineData("x.json --format xml", "xml")]
    [InlineData("x.json --unknown-age adult", "adult")]
    [InlineData("x.json --rules nope", "AG3001")]
    [InlineData("x.json --map nope.json", "AG2001")]
    [InlineData("x.json --map /dev/zero", "AG2002")]
    public async Task WrongUsageExits64AndSaysWhatWasWrongOnStandardErrorAlone(string arguments, string named)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["check", .. arguments.Split(' ', StringSplitOptions.RemoveEmptyEntries)]);

        Assert.Equal(64, exit);
        Assert.Empty(stdout);
        Assert.Contains(named, stderr, StringComparison.Ordinal);
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
    public async Task AnUnknownVerbExits64()
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["chek", "x.json"]);

        Assert.Equal(64, exit);
        Assert.Empty(stdout);
        Assert.Contains("chek", stderr, StringComparison.Ordinal);
    }
}
