using System.Text;
using AirwayGuard.TestKit.Pipeline;
using Xunit;
using AirwayGuard.Worker.Questions;

namespace AirwayGuard.Worker.Tests.Questions;

public sealed class FeedbackDeskTests
{
    [Fact]
    public async Task WhatAPersonDidWithACard_IsKeptOnce_HoweverOftenItIsReported()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        var card = await CardAsync(bench);

        Assert.Equal((1, 0), Counts(await SendAsync(bench, Entry(card))));
        Assert.Equal((0, 1), Counts(await SendAsync(bench, Entry(card))));
        Assert.Equal((1, 1), Counts(await SendAsync(bench, Entry(card) + "," + Entry(card, "2026-03-02T09:32:00Z"))));
    }

    [Fact]
    public async Task AnUnknownCard_Is404_AndWhatIsSaidOfOthersIsKept()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        var card = await CardAsync(bench);

        var reply = await SendAsync(bench, Entry(Guid.Parse("00000000-0000-4000-8000-000000000001")) + "," + Entry(card));

        Assert.Equal((1, 404, "AG8114", "feedback[0].card"), (reply.Kept, reply.Fault!.Status, reply.Fault.Code.Id, reply.Fault.Where));
    }

    [Fact]
    public async Task ACardOfAnotherService_IsUnknownToThisOne()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        var card = await CardAsync(bench);

        Assert.Equal(404, (await SendAsync(bench, Entry(card), HookServices.PatientView)).Fault?.Status);
    }

    [Fact]
    public async Task OneBadEntry_SpoilsNoOther()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        var card = await CardAsync(bench);

        var reply = await SendAsync(bench, """{"card":"x","outcome":"accepted"},""" + Entry(card));

        Assert.Equal((1, 400, "AG8113"), (reply.Kept, reply.Fault!.Status, reply.Fault.Code.Id));
    }

    private static (int Kept, int Repeated) Counts(FeedbackReply reply)
    {
        Assert.Null(reply.Fault);
        return (reply.Kept, reply.Repeated);
    }

    private static async Task<Guid> CardAsync(QuestionBench bench)
    {
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        return (await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(vacuum: 220)]))).Cards[0].Id;
    }

    private static string Entry(Guid card, string at = "2026-03-02T09:31:00Z") =>
        $$$"""{"card":"{{{card}}}","outcome":"overridden","outcomeTimestamp":"{{{at}}}","overrideReason":{"reason":{"system":"https://airwayguard.example.org/fhir/CodeSystem/override-reason","code":"thick-secretions"},"userComment":"invented words"}}""";

    private static ValueTask<FeedbackReply> SendAsync(QuestionBench bench, string entries, string service = HookServices.OrderSign) =>
        bench.Desk.FeedbackAsync(service, Encoding.UTF8.GetBytes($$"""{"feedback":[{{entries}}]}"""), default);
}
