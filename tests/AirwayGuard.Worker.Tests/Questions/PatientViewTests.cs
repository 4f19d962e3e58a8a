using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;
using AirwayGuard.Fhir.CdsHooks;
using AirwayGuard.TestKit.Pipeline;
using Xunit;
using AirwayGuard.Worker.Questions;

namespace AirwayGuard.Worker.Tests.Questions;

public sealed class PatientViewTests
{
    private static JsonObject View(string patientId) => new()
    {
        ["hook"] = "patient-view",
        ["hookInstance"] = "1d1e9a5c-6c8c-4d5c-8f57-0b8a4f1c2d3e",
        ["context"] = new JsonObject { ["userId"] = "Practitioner/rt-1", ["patientId"] = patientId },
    };

    [Fact]
    public async Task BeforeEverythingWasReadOnce_NobodyKnowsWhatStands()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);

        Assert.Equal((412, "AG8109"), ((await bench.AskAsync(View("p1"), HookServices.PatientView)).Fault is { } fault ? (fault.Status, fault.Code.Id) : default));
    }

    [Fact]
    public async Task OfAPatientNobodyFollows_NothingStands()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient());

        var reply = await bench.AskAsync(View("p9"), HookServices.PatientView);

        Assert.Null(reply.Fault);
        Assert.Empty(reply.Cards);
    }

    [Fact]
    public async Task WhatStands_IsToldAsItsFlagSaysIt_AndEndsWithIt()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube(), Drafts.Row("v1", "vacuum-pressure", 220, "mm[Hg]", "2026-03-02T09:00:00Z"));
        await bench.JudgeAsync();

        var card = Assert.Single((await bench.AskAsync(View("p1"), HookServices.PatientView)).Cards);
        Assert.Equal("Charted vacuum 220 mmHg is above the adult ceiling of 150 mmHg.", card.Summary);
        Assert.Equal((CardIndicator.Warning, "vacuum-above-ceiling"), (card.Indicator, card.Source.Topic?.Code));
        Assert.Contains("2026-03-02 09:00 UTC", card.Detail, StringComparison.Ordinal);

        await bench.FollowAsync(Drafts.Now, Drafts.Row("v2", "vacuum-pressure", 110, "mm[Hg]", "2026-03-02T09:20:00Z"));
        await bench.JudgeAsync();
        Assert.Empty((await bench.AskAsync(View("p1"), HookServices.PatientView)).Cards);
    }

    [Fact]
    public async Task WhatIsSilent_IsNotTold()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now, signedOff: Core.SignOffs.SignedOff.None);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube(), Drafts.Row("v1", "vacuum-pressure", 220, "mm[Hg]", "2026-03-02T09:00:00Z"));
        await bench.JudgeAsync();

        Assert.Empty((await bench.AskAsync(View("p1"), HookServices.PatientView)).Cards);
    }
}
