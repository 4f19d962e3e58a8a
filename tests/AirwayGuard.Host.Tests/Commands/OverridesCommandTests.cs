using System.Text.Json;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary><c>overrides</c>: what people did with cards, read beside whoever holds the ledger.</summary>
public sealed class OverridesCommandTests : IAsyncLifetime
{
    private const string Service = "suction-order-sign", Words = "she was blue";
    private static readonly DateTimeOffset Noon = new(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);

    private readonly GivenFolder _folder = new();
    private SqliteLedger _ledger = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() =>
        _ledger = await SqliteLedger.OpenAsync(_folder.Of("ledger"), new SqliteLedgerOptions(), new SetClock(Noon));

    public async ValueTask DisposeAsync()
    {
        await _ledger.DisposeAsync();
        _folder.Dispose();
    }

    [Fact]
    public async Task WhatPeopleDidIsCountedWhileTheServiceHoldsTheLedger()
    {
        await GiveAsync(1, "vacuum-above-ceiling");
        await GiveAsync(2, "vacuum-above-ceiling");
        await GiveAsync(3, "");
        await ReportAsync(1, CardOutcome.Overridden);

        var (exit, text, errors) = await RunAsync();

        Assert.Equal((0, ""), (exit, errors));
        Assert.Contains("vacuum-above-ceiling      2         0           1         1             1  100.0 % (20.7 to 100.0 %)  few\n      1  emergency\n", text, StringComparison.Ordinal);
        Assert.Contains("Not judged, and in no sum above: 1 card ", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CommentsComeOnlyWhenAskedFor_AndThenItIsSaidThatTheyArePatientData()
    {
        await GiveAsync(1, "vacuum-above-ceiling");
        await ReportAsync(1, CardOutcome.Overridden);

        foreach (var format in new[] { "text", "json", "csv" })
        {
            var (exit, plain, silence) = await RunAsync("--format", format);
            Assert.Equal((0, ""), (exit, silence));
            Assert.DoesNotContain(Words, plain, StringComparison.Ordinal);
        }

        foreach (var format in new[] { "text", "json" })
        {
            var (exit, told, said) = await RunAsync("--format", format, "--with-comments");
            Assert.Equal(0, exit);
            Assert.Contains(Words, told, StringComparison.Ordinal);
            Assert.Equal("The output holds comments, which are people's own words about patients: handle it as patient data.", said.TrimEnd());
        }
    }

    [Fact]
    public async Task SinceIsInclusiveUntilIsNot_ByWhenTheCardWasGiven()
    {
        foreach (var minute in new[] { 10, 11, 12 })
        {
            await GiveAsync(minute, "vacuum-above-ceiling");
        }

        await ReportAsync(11, CardOutcome.Accepted);

        var (_, text, _) = await RunAsync("--since", "2026-03-02T12:11:00Z", "--until", "2026-03-02T13:12:00+01:00", "--format", "json");

        using var told = JsonDocument.Parse(text);
        Assert.Equal(("2026-03-02T12:11:00Z", "2026-03-02T12:12:00Z"), (told.RootElement.GetProperty("since").GetString(), told.RootElement.GetProperty("until").GetString()));
        Assert.Equal((1, 1), (told.RootElement.GetProperty("all").GetProperty("given").GetInt32(), told.RootElement.GetProperty("all").GetProperty("accepted").GetInt32()));
    }

    [Fact]
    public async Task ForASpreadsheetThereIsCsv()
    {
        await GiveAsync(1, "vacuum-above-ceiling");
        await ReportAsync(1, CardOutcome.Overridden);

        var (exit, csv, _) = await RunAsync("--format", "csv");

        Assert.Equal(0, exit);
        Assert.Equal("row check reason all", string.Join(' ', csv.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split(',')[0])));
    }

    [Fact]
    public async Task AFolderWithoutALedgerIsToldByItsCode()
    {
        using var folder = new GivenFolder();

        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["overrides", "--data", folder.Path, "--with-comments"]);

        Assert.Equal((2, ""), (exit, stdout));
        Assert.StartsWith("AG1606  ", stderr, StringComparison.Ordinal);
        Assert.Single(stderr.Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }

    [Theory]
    [InlineData("--since 2026-03-01", "AG1014  overrides --since: it is no time with an offset, or there is no such time. ")]
    [InlineData("--until yesterday", "AG1014  overrides --until: it is no time with an offset, or there is no such time. ")]
    [InlineData("--since 2026-03-02T12:00:00Z --until 2026-03-02T13:00:00+01:00", "AG1013  overrides --until: it is not later than --since. ")]
    [InlineData("--format xml", "AG1013  overrides --format: it takes text, json or csv. ")]
    [InlineData("--format csv --with-comments", "AG1013  overrides --with-comments: csv never holds comments; take text or json. ")]
    [InlineData("--since", "AG1013  overrides --since: its value is missing. ")]
    [InlineData("more", "AG1013  overrides: 'more' is more than it takes. ")]
    public async Task WrongUsageExits64AndSaysWhatWasWrongOnStandardErrorAlone(string arguments, string said)
    {
        var (exit, stdout, stderr) = await RunAsync(arguments.Split(' '));

        Assert.Equal((64, ""), (exit, stdout));
        Assert.StartsWith(said, stderr, StringComparison.Ordinal);
        Assert.Single(stderr.Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }

    private static Guid Id(int number) => new($"00000000-0000-4000-8000-{number:D12}");

    private async Task GiveAsync(int minute, string check) => await _ledger.AnswerAsync(
        [new HookAnswer(
            Service, "order-sign", Noon.AddMinutes(minute), "basis-1", _ledger.Intern("Patient/1"), [new GivenCard(Id(minute), check, Severity.High, "{}")],
            new AuditNote("question-answered", Service, "{}", default))],
        Stop);

    private async Task ReportAsync(int card, CardOutcome outcome) => Assert.Equal(
        [FeedbackKept.Kept],
        await _ledger.KeepFeedbackAsync(
            Service,
            [new CardFeedback(Id(card), outcome, Noon.AddMinutes(30), "https://airwayguard.example.org/fhir/CodeSystem/override-reason", "emergency", "Emergency", Words, [])],
            Noon.AddHours(1), Stop));

    private async Task<(int Exit, string Text, string Errors)> RunAsync(params string[] more)
    {
        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["overrides", "--data", _folder.Path, .. more]);
        return (exit, stdout, stderr);
    }
}
