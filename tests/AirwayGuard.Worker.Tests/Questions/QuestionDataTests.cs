using System.Text.Json.Nodes;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.Questions;

/// <summary>CDS Hooks 2.0, section Prefetch: a key may be null (no data), absent (not looked), an OperationOutcome (failed) or a page of more.</summary>
public sealed class QuestionDataTests
{
    private const string Outcome = """{"resourceType":"OperationOutcome","issue":[{"severity":"error","code":"exception"}]}""";

    [Fact]
    public async Task APatientNobodyFollows_IsJudgedOnThePrefetch()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);

        var reply = await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(french: 14)], Drafts.Prefetch(Drafts.Patient(), Drafts.Airway(), Drafts.Tube())));

        Assert.Null(reply.Fault);
        Assert.Equal("catheter-too-wide", Assert.Single(reply.Cards).Source.Topic?.Code);
        Assert.DoesNotContain("Age of the charting", reply.Cards[0].Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("absent")]
    [InlineData("outcome")]
    [InlineData("paged")]
    public async Task WhatIsNeededAndCannotBeHad_Is412_AndNamesTheKeys(string how)
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        var prefetch = Drafts.Prefetch(Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        prefetch.Remove("devices");
        if (how != "absent")
        {
            prefetch["devices"] = how == "outcome" ? JsonNode.Parse(Outcome) : Paged(Drafts.Bundle());
        }

        var reply = await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(french: 14)], prefetch));

        Assert.Equal(("AG8109", 412, "prefetch"), (reply.Fault?.Code.Id, reply.Fault?.Status, reply.Fault?.Where));
        Assert.Contains("these are missing: devices.", reply.Fault!.Why, StringComparison.Ordinal);
        Assert.Empty(reply.Cards);
    }

    [Fact]
    public async Task NullIsNoData_SoThatItCountsAsMissingAndNotAsNotLooked()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);

        var reply = await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(vacuum: 120)], Drafts.Prefetch(null, Drafts.Airway(), Drafts.Tube())));

        Assert.Equal("Not judged by the suction policy for want of: birth date.", Assert.Single(reply.Cards).Summary);
    }

    [Fact]
    public async Task APageOfRowsNewestFirst_IsEnough()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        var prefetch = Drafts.Prefetch(Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        prefetch["airwayRows"] = Paged(prefetch["airwayRows"]!.DeepClone().AsObject());

        Assert.Single((await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(french: 14)], prefetch))).Cards);
    }

    [Fact]
    public async Task WhatDidNotCome_IsReadByTheCallersLeave_PageByPage_FromTheConfiguredServerOnly()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        bench.ServerAnswers["Patient/p1"] = Drafts.Patient();
        bench.ServerAnswers["Observation"] = Drafts.Bundle(Drafts.Airway(), Drafts.Tube()).ToJsonString();
        bench.ServerAnswers["Device?patient=p1"] = Paged(Drafts.Bundle(), "http://alias.example.org/fhir/Device?page=2").ToJsonString();
        bench.ServerAnswers["Device?page=2"] = Drafts.Bundle().ToJsonString();
        bench.ServerAnswers["DeviceUseStatement"] = Drafts.Bundle().ToJsonString();
        bench.ServerAnswers["Encounter"] = Drafts.Bundle().ToJsonString();
        bench.ServerAnswers["Condition"] = Drafts.Bundle().ToJsonString();

        var reply = await bench.AskAsync(WithLeave(QuestionBench.Sign("p1", [Drafts.Equipment(french: 14)])));

        Assert.Null(reply.Fault);
        Assert.Single(reply.Cards);
        Assert.All(bench.Asked, asked => Assert.StartsWith(QuestionBench.Server + "/", asked.Address, StringComparison.Ordinal));
        Assert.All(bench.Asked, asked => Assert.Equal("Bearer leave-1", asked.Authorization));
        Assert.Contains(bench.Asked, asked => asked.Address == QuestionBench.Server + "/Device?page=2");
    }

    [Fact]
    public async Task ANextPageElsewhere_IsNotFollowed()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        bench.ServerAnswers["Device?patient=p1"] = Paged(Drafts.Bundle(), "http://elsewhere.example.org/fhir/Device?page=2").ToJsonString();
        var prefetch = Drafts.Prefetch(Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        prefetch.Remove("devices");

        var reply = await bench.AskAsync(WithLeave(QuestionBench.Sign("p1", [Drafts.Equipment(french: 14)], prefetch)));

        Assert.Equal("AG8109", reply.Fault?.Code.Id);
        Assert.DoesNotContain(bench.Asked, asked => asked.Address.Contains("elsewhere", StringComparison.Ordinal));
    }

    [Fact]
    public async Task AnotherFhirServer_IsRefused_SinceItsIdentifiersAreOtherPatients()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        var reply = await bench.AskAsync(WithLeave(QuestionBench.Sign("p1", [Drafts.Equipment(french: 14)]), "https://other.example.org/fhir"));

        Assert.Equal(("AG8108", 400), (reply.Fault?.Code.Id, reply.Fault?.Status));
        Assert.Empty(bench.Asked);
    }

    [Theory]
    [InlineData("http://localhost/fhir")]
    [InlineData("http://localhost/fhir/")]
    [InlineData("http://alias.example.org/fhir")]
    public async Task TheConfiguredServer_ByAnyOfItsNames_IsOurs(string name)
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        Assert.Single((await bench.AskAsync(WithLeave(QuestionBench.Sign("p1", [Drafts.Equipment(french: 14)]), name))).Cards);
        Assert.Empty(bench.Asked);
    }

    [Fact]
    public async Task BetweenLedgerAndPrefetch_TheNewerVersionCounts_AndTheServerIsAsked()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Row("tube-p1", "tube-inner-diameter", 8.0m, "mm", version: 2, saved: "2026-03-01T09:00:00Z"));
        var older = Drafts.Row("tube-p1", "tube-inner-diameter", 6.0m, "mm", version: 1);
        var newer = Drafts.Row("tube-p1", "tube-inner-diameter", 6.0m, "mm", version: 3, saved: "2026-03-02T09:00:00Z");

        Assert.Empty((await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(french: 12)], Drafts.Prefetch(Drafts.Patient(), older)))).Cards);
        Assert.Empty(bench.Pulled);
        Assert.Equal("catheter-too-wide", Assert.Single((await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(french: 12)], Drafts.Prefetch(Drafts.Patient(), newer)))).Cards).Source.Topic?.Code);
        Assert.Equal(["Observation"], bench.Pulled);
        Assert.Empty((await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Equipment(french: 12)]))).Cards);
    }

    [Fact]
    public async Task ABundleThatSaysItLacksSomething_IsNotWhole()
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        var prefetch = Drafts.Prefetch(Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var entries = prefetch["airwayRows"]!["entry"]!.AsArray();
        entries.Add(new JsonObject { ["search"] = new JsonObject { ["mode"] = "outcome" }, ["resource"] = JsonNode.Parse(Outcome.Replace("error", "warning", StringComparison.Ordinal)) });
        var request = QuestionBench.Sign("p1", [Drafts.Equipment(french: 14)], prefetch);
        Assert.Null((await bench.AskAsync(request)).Fault);

        entries.Add(new JsonObject { ["resource"] = JsonNode.Parse(Outcome) });
        Assert.Equal("AG8109", (await bench.AskAsync(request)).Fault?.Code.Id);
    }

    [Theory]
    [InlineData("http://evil.example.org/fhir/Patient/p1", 400)]
    [InlineData("http://alias.example.org/fhir/Patient/p1", 200)]
    [InlineData("http://localhost/fhir/Patient/p1", 200)]
    [InlineData("urn:uuid:6f7b2f0e-2a52-4b39-9c3e-0c2f4f0d7a11", 400)]
    public async Task ADraftForSomebodyElse_OrForNobodyCanTellWhom_IsRefused(string subject, int status)
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        var draft = JsonNode.Parse(Drafts.Equipment(french: 14))!;
        draft["subject"]!["reference"] = subject;

        var reply = await bench.AskAsync(QuestionBench.Sign("p1", [draft.ToJsonString()]));

        Assert.Equal(status, reply.Fault?.Status ?? 200);
        Assert.Equal(status == 200 ? 1 : 0, reply.Cards.Length);
    }

    [Theory]
    [InlineData("draft")]
    [InlineData("prefetch")]
    public async Task AnotherPatientsData_AreRefused(string where)
    {
        await using var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());

        var reply = await bench.AskAsync(where == "draft"
            ? QuestionBench.Sign("p1", [Drafts.Equipment(french: 14), Drafts.Equipment(french: 14, id: "e2", patient: "p2")])
            : QuestionBench.Sign("p1", [Drafts.Equipment(french: 14)], Drafts.Prefetch(Drafts.Patient("p2"))));

        Assert.Equal(("AG8107", 400), (reply.Fault?.Code.Id, reply.Fault?.Status));
        Assert.DoesNotContain("p2", reply.Fault!.Why, StringComparison.Ordinal);
    }

    private static JsonObject WithLeave(JsonObject request, string server = QuestionBench.Server)
    {
        request["fhirServer"] = server;
        request["fhirAuthorization"] = new JsonObject { ["access_token"] = "leave-1", ["token_type"] = "Bearer", ["expires_in"] = 300, ["scope"] = "user/*.rs", ["subject"] = "cds" };
        return request;
    }

    private static JsonObject Paged(JsonObject bundle, string next = "http://localhost/fhir/next?page=2")
    {
        bundle["link"] = new JsonArray(new JsonObject { ["relation"] = "next", ["url"] = next });
        return bundle;
    }
}
