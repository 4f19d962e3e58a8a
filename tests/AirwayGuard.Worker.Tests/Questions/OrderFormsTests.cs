using System.Text.Json.Nodes;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.Questions;

/// <summary>Orders as order entries may write them: each that may ask for unsafe suction gets a card, and none is offered a change that would leave it unsafe.</summary>
public sealed class OrderFormsTests
{
    private const string NotRead = "Not judged by the suction policy: the order could not be read.";

    // A site's own code says nothing here; what it displays names the order.
    [Theory]
    [InlineData("Suction endotracheal tube at 300 mmHg")]
    [InlineData("Endotracheal suction")]
    public async Task AnOrderNamedByWhatItsCodeDisplays_IsJudged(string display)
    {
        var draft = Changed(Drafts.Words("300 mmHg"), order => order["code"] = JsonNode.Parse($$"""{"coding":[{"system":"https://hosp.example.org/orders","code":"SX","display":"{{display}}"}]}"""));

        Assert.Contains("The order allows a vacuum of 300 mmHg, above the adult ceiling of 150 mmHg.", await SaidAsync(draft), StringComparer.Ordinal);
    }

    [Fact]
    public async Task EquipmentNamedByAReference_IsJudged()
    {
        var draft = Changed(Drafts.Equipment(), order =>
        {
            order.Remove("codeCodeableConcept");
            order["codeReference"] = new JsonObject { ["reference"] = "Device/c16", ["display"] = "Suction catheter 18 Fr" };
        });

        Assert.StartsWith("The catheter takes 75 % of the tube's inner diameter", Assert.Single(await SaidAsync(draft)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"Suction ETT\"")]
    [InlineData("""{"concept":{"text":"Suction ETT"}}""")]
    public async Task AnOrderWhoseNameHasAFormOfItsOwn_IsToldAsUnread(string code) =>
        Assert.Equal([NotRead], await SaidAsync(Changed(Drafts.Words("200 mmHg"), order => order["code"] = JsonNode.Parse(code))));

    [Fact]
    public async Task AnOrderOfATypeThatR4DoesNotHave_IsToldAsUnread() =>
        Assert.Equal([NotRead], await SaidAsync(Changed(Drafts.Words("200 mmHg"), static order => order["resourceType"] = "Servicerequest")));

    [Fact]
    public async Task AnOrderOfSomethingElse_GetsNoCard() =>
        Assert.Empty(await SaidAsync(Changed(Drafts.Words("200 mmHg"), static order => order["code"] = JsonNode.Parse("""{"coding":[{"system":"https://hosp.example.org/orders","code":"CBC","display":"Complete blood count"}]}"""))));

    // What is asked for under a condition, or without a number, is no pass.
    [Theory]
    [InlineData("120 mmHg; for plugs 300")]
    [InlineData("120 mmHg. If thick 200")]
    [InlineData("120 mmHg; higher if needed")]
    [InlineData("120 mmHg, no upper limit")]
    [InlineData("as needed at maximum vacuum")]
    [InlineData("as needed, on high")]
    [InlineData("as needed without a regulator")]
    [InlineData("120 mmHg. If not cleared turn up to max.")]
    public async Task AVacuumThatNobodyCanHoldAgainstALimit_IsNamed(string text) => Assert.NotEmpty(await SaidAsync(Drafts.Words(text)));

    [Fact]
    public async Task AChangeThatWouldLeaveAnotherVacuumInWords_IsNotOffered()
    {
        await using var bench = await StartedAsync();
        var draft = Changed(Drafts.Equipment(vacuum: 220), static order => order["note"] = new JsonArray(new JsonObject { ["text"] = "for plugs 300" }));

        Assert.All((await bench.AskAsync(QuestionBench.Sign("p1", [draft]))).Cards, static card => Assert.Empty(card.Suggestions));
    }

    // It would say Vacuum 220 mmHg and ask for 150.
    [Theory]
    [InlineData("text")]
    [InlineData("display")]
    public async Task ANumberInTheParametersLabel_IsNotContradicted(string member)
    {
        await using var bench = await StartedAsync();
        var draft = Changed(Drafts.Equipment(vacuum: 220), order =>
        {
            var code = order["parameter"]![0]!["code"]!;
            (member == "text" ? code : code["coding"]![0]!)[member] = "Vacuum 220 mmHg";
        });

        Assert.Empty(Assert.Single((await bench.AskAsync(QuestionBench.Sign("p1", [draft]))).Cards).Suggestions);
    }

    [Fact]
    public async Task TheValueThatBreaches_IsAmongThePlacesToChange()
    {
        await using var bench = await StartedAsync();

        var card = (await bench.AskAsync(QuestionBench.Sign("p1", [Drafts.Words("120 to 150 mmHg, never more than 200 mmHg")]))).Cards[0];

        Assert.Contains("characters 1 to 15, 18 to 41 of", card.Detail, StringComparison.Ordinal);
    }

    private static string Changed(string draft, Action<JsonObject> change)
    {
        var order = JsonNode.Parse(draft)!.AsObject();
        change(order);
        return order.ToJsonString();
    }

    private static async Task<QuestionBench> StartedAsync()
    {
        var bench = await QuestionBench.StartAsync(Drafts.Now);
        await bench.FollowAsync(Drafts.Now, Drafts.Patient(), Drafts.Airway(), Drafts.Tube());
        return bench;
    }

    private static async Task<string[]> SaidAsync(string draft)
    {
        await using var bench = await StartedAsync();
        return [.. (await bench.AskAsync(QuestionBench.Sign("p1", [draft]))).Cards.Select(static card => card.Summary)];
    }
}
