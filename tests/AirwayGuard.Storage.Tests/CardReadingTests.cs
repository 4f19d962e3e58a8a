using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

/// <summary>Cards read beside whoever gives them, and what their tables hold.</summary>
public sealed class CardReadingTests : IDisposable
{
    private const string Service = "order-sign-suction";
    private static readonly Guid First = new("0f0e0d0c-0b0a-0908-0706-050403020100"), Second = new("7f0e0d0c-0b0a-0908-0706-050403020100"), Third = new("ff0e0d0c-0b0a-0908-0706-050403020100");

    private readonly TestFolder _folder = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Cards_are_read_by_time_and_id_with_what_was_said_of_each_oldest_first()
    {
        await using var ledger = await OpenAsync();
        await using var reader = SqliteLedgerReader.Open(_folder.Path);
        await GiveAsync(ledger, 5, Third);
        await GiveAsync(ledger, 9, Second, First);
        var late = new CardFeedback(Third, CardOutcome.Overridden, At(8), "https://ehr.example/reasons", "x", "Some reason", "in their words", []);
        var early = new CardFeedback(Third, CardOutcome.Accepted, At(6), "", "", "", "", [First, Second]);
        await ledger.KeepFeedbackAsync(Service, [late, early], At(10), Stop);

        var cards = await reader.CardsAsync(At(0), At(60), Stop);

        Assert.Equal([Third, First, Second], cards.Select(card => card.Card));
        Assert.Equal(
            (Service, "order-sign", "vacuum-above-ceiling", Severity.Moderate, At(5)), (cards[0].Service, cards[0].Hook, cards[0].Check, cards[0].Severity, cards[0].At));
        Assert.Equal([early with { Suggestions = default }, late with { Suggestions = default }], cards[0].Feedback.Select(said => said with { Suggestions = default, KeptAt = null }));
        Assert.All(cards[0].Feedback, said => Assert.Equal(At(10), said.KeptAt));
        Assert.Equal([[First, Second], []], cards[0].Feedback.Select(said => said.Suggestions.ToArray()));
        Assert.Empty(cards[1].Feedback);
    }

    [Fact]
    public async Task A_card_is_kept_with_its_content_basis_and_patient_or_none()
    {
        await using var ledger = await OpenAsync();
        await GiveAsync(ledger, 5, First);
        await ledger.AnswerAsync([AnswerOf(6, Second) with { Patient = ledger.Intern("Patient/1") }], Stop);

        using var database = Database.OpenReader(LedgerFile.In(_folder.Path));
        using var rows = database.Prepared(
            "SELECT group_concat(said, ' ') FROM (SELECT c.content || b.sha256 || coalesce(e.name, '-') AS said FROM cards c JOIN bases b ON b.basis = c.basis LEFT JOIN entities e ON e.entity = c.subject ORDER BY c.at)");
        Assert.True(rows.Step());
        Assert.Equal("{}basis-1- {}basis-1Patient/1", rows.Text(0));
    }

    [Fact]
    public async Task What_is_past_of_used_tokens_goes_with_the_calls_that_follow()
    {
        await using var ledger = await OpenAsync();
        for (var i = 0; i < 100; i++)
        {
            await ledger.UseTokenAsync(new UsedToken("ehr", $"{i}", At(1)), At(0), Stop);
        }

        var left = new List<long>();
        for (var i = 0; i < 5; i++)
        {
            await ledger.UseTokenAsync(new UsedToken("ehr", $"later {i}", At(9)), At(2), Stop);
            left.Add(Count("used_tokens"));
        }

        Assert.Equal([37, 2, 3, 4, 5], left);
    }

    private static DateTimeOffset At(int minutes) => Charted.Morning.AddMinutes(minutes);

    private static HookAnswer AnswerOf(int at, params Guid[] cards) => new(
        Service, "order-sign", At(at), "basis-1", default, [.. cards.Select(card => new GivenCard(card, "vacuum-above-ceiling", Severity.Moderate, "{}"))],
        new AuditNote("question-answered", Service, "{}", default));

    private static ValueTask GiveAsync(SqliteLedger ledger, int at, params Guid[] cards) => ledger.AnswerAsync([AnswerOf(at, cards)], Stop);

    private long Count(string table)
    {
        using var database = Database.OpenReader(LedgerFile.In(_folder.Path));
        using var row = database.Prepared($"SELECT count(*) FROM {table}");
        Assert.True(row.Step());
        return row.Long(0);
    }

    private ValueTask<SqliteLedger> OpenAsync() => SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions { WaitsForDisk = false }, new SetClock(Charted.Morning));
}
