using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Questions;
using Xunit;

namespace AirwayGuard.Worker.Tests.Questions;

public sealed class AnswerBookTests
{
    [Fact]
    public async Task WhatWasAnswered_IsKeptInOneStep_InItsOrder()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        using var book = new AnswerBook(bench.Ledger);
        for (var i = 1; i <= 3; i++)
        {
            await book.AddAsync(Answer(i), TestContext.Current.CancellationToken);
        }

        Assert.Equal(3, book.Waiting);
        await book.StepAsync(TestContext.Current.CancellationToken);

        Assert.Equal(0, book.Waiting);
        var noted = new List<string>();
        await foreach (var entry in bench.Ledger.AuditTrailAsync(TestContext.Current.CancellationToken))
        {
            noted.Add(entry.Subject);
        }

        Assert.Equal(["1", "2", "3"], noted, StringComparer.Ordinal);
    }

    [Fact]
    public async Task MoreThanGoesIntoOneCommit_IsKeptInOneStep_InItsOrder()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        using var book = new AnswerBook(bench.Ledger);
        for (var i = 1; i <= 450; i++)
        {
            await book.AddAsync(Answer(i), TestContext.Current.CancellationToken);
        }

        await book.StepAsync(TestContext.Current.CancellationToken);

        Assert.Equal(0, book.Waiting);
        var noted = await bench.Ledger.AuditTrailAsync(TestContext.Current.CancellationToken).Select(static entry => entry.Subject).ToListAsync(TestContext.Current.CancellationToken);
        Assert.Equal(Enumerable.Range(1, 450).Select(static i => $"{i}"), noted, StringComparer.Ordinal);
    }

    [Fact]
    public async Task WhatCannotBeKept_WaitsOn()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        using var book = new AnswerBook(bench.Ledger);
        await book.AddAsync(Answer(1), TestContext.Current.CancellationToken);
        await bench.Ledger.DisposeAsync();

        await Assert.ThrowsAnyAsync<Exception>(async () => await book.StepAsync(TestContext.Current.CancellationToken));

        Assert.Equal(1, book.Waiting);
    }

    private static HookAnswer Answer(int number) => new(
        "suction-order-sign", "order-sign", Drafts.Now, new string('b', 64), default, [new GivenCard(new Guid(number, 0, 0, new byte[8]), "catheter-too-wide", Severity.Low, "{}")],
        new AuditNote("question-answered", $"{number}", "{}", default));
}
