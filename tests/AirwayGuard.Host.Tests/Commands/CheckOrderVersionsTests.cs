using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>Orders over time: what ended with its order, what a hold forbids, what reason an ended order still gives.</summary>
public sealed class CheckOrderVersionsTests : IDisposable
{
    private const string ByClock = ",\"occurrenceTiming\":{\"repeat\":{\"frequency\":1,\"period\":2,\"periodUnit\":\"h\"}}", AsNeeded = ",\"asNeededBoolean\":true";
    private const string Answers = "https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer";

    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // "Ends when: order mended or ended".
    [Theory]
    [InlineData("completed", ByClock, "cleared", 1)]
    [InlineData("active", AsNeeded, "cleared", 1)]
    [InlineData("entered-in-error", ByClock, "withdrawn", 0)]
    public async Task AnOrderThatEndsOrIsMendedClearsWhatWasSaidOfIt(string status, string says, string state, int exit)
    {
        var answer = await CheckAnswer.OfAsync(_folder.File("rows.ndjson", Given.Adult, Order("active", ByClock, 1, "08:00"), Order(status, says, 2, "09:00")));

        Assert.Equal([$"suction-ordered-by-clock ServiceRequest/r {state}"], answer.Findings, StringComparer.Ordinal);
        Assert.Equal(exit, answer.Exit);
    }

    // Saved at 11:00 as on hold, after a version that was not: the pass of 10:00 was no breach of it.
    [Theory]
    [InlineData(1, true)]
    [InlineData(2, false)]
    public async Task AHoldThatCameAfterThePassForbadeNothing(int version, bool isFound)
    {
        var answer = await CheckAnswer.OfAsync(_folder.File(
            "rows.ndjson", Given.Adult, Order("on-hold", AsNeeded, version, "11:00"), Given.Observation("s", "true", "valueBoolean", "2026-03-01T10:00:00Z", code: "suction-pass")));

        Assert.Equal(isFound, answer.Findings.Contains("suctioned-despite-order-not-to Observation/s open", StringComparer.Ordinal));
    }

    // The reason stood on the order when it was carried out; that the order has ended since takes it from no pass.
    [Theory]
    [InlineData("strict-ranges", "active", true, false)]
    [InlineData("strict-ranges", "completed", true, false)]
    [InlineData("guideline-2022", "completed", true, false)]
    [InlineData("strict-ranges", "completed", false, true)]
    [InlineData("guideline-2022", "active", false, true)]
    [InlineData("strict-ranges", "draft", true, true)] // ordered nothing
    public async Task AReasonOnItsOrderLetsAPassBeAlsoWhenTheOrderHasEnded(string rules, string status, bool hasReason, bool isFound)
    {
        var reason = hasReason ? $$""","reasonCode":[{"coding":[{"system":"{{Answers}}","code":"thick-secretions"}]}]""" : "";
        var saline = Given.Observation("n", "true", "valueBoolean", "2026-03-01T10:00:00Z", code: "saline-instilled")
            .Replace("\"status\"", "\"partOf\":[{\"reference\":\"Procedure/p1\"}],\"status\"", StringComparison.Ordinal);
        var pass = $$$"""{"resourceType":"Procedure","id":"p1","status":"completed","basedOn":[{"reference":"ServiceRequest/r"}],"code":{"coding":[{"system":"{{{Given.Row}}}","code":"suction-pass"}]},"subject":{"reference":"Patient/p"},"performedPeriod":{"start":"2026-03-01T10:00:00Z","end":"2026-03-01T10:00:08Z"}}""";
        var answer = await CheckAnswer.OfAsync(_folder.File("rows.ndjson", Given.Adult, Order(status, AsNeeded + reason, 1, "08:00"), pass, saline), "--rules", rules);

        Assert.Equal(isFound, answer.Findings.Any(one => one.StartsWith("saline-without-reason", StringComparison.Ordinal)));
    }

    // A request for equipment tied to an order is part of it and held with it; it stands alone where that order is not on file, or none that holds.
    [Theory]
    [InlineData("active", true)]
    [InlineData("revoked", true)]
    [InlineData("draft", true)]
    [InlineData("on-hold", false)]
    [InlineData("completed", true)]
    [InlineData("entered-in-error", true)]
    [InlineData(null, true)]
    public async Task TheEquipmentOfAnOrderIsJudgedUnlessTheOrderIsOnHold(string? status, bool isFound)
    {
        var order = status is null ? Given.Adult : Order(status, AsNeeded, 1, "08:00");
        var answer = await CheckAnswer.OfAsync(_folder.File("rows.ndjson", Given.Adult, order, Equipment("200")));

        Assert.Equal(isFound, answer.Findings.Any(one => one.StartsWith("ordered-vacuum-above-ceiling", StringComparison.Ordinal)));
        Assert.Equal(isFound ? 1 : 0, answer.Report.GetProperty("judged").GetProperty("orders").GetInt32());
    }

    [Theory]
    [InlineData("", "suctioned-despite-order-not-to Observation/s open", false, "True")]
    [InlineData(",\"bodySite\":[{\"text\":\"nose\"}]", "", true, "Null")]
    public async Task AnOrderNotToSuctionAllowsNoVacuumAndWithUnreadWordsNobodyCanTellWhatItForbids(string says, string found, bool isUnclear, string told)
    {
        const string unclear = "whether an order asks for suction or forbids it";
        var answer = await CheckAnswer.OfAsync(_folder.File(
            "rows.ndjson", Given.Adult, Order("active", ",\"doNotPerform\":true" + says, 1, "08:00"), Equipment("200"),
            Given.Observation("s", "true", "valueBoolean", "2026-03-01T10:00:00Z", code: "suction-pass")));

        Assert.Equal(found, string.Join("; ", answer.Findings.Where(
            one => one.StartsWith("suctioned-despite", StringComparison.Ordinal) || one.StartsWith("ordered-vacuum", StringComparison.Ordinal))));
        Assert.Equal(isUnclear, answer.CannotTell.Contains("suctioned-despite-order-not-to Observation/s: " + unclear, StringComparer.Ordinal));
        Assert.Equal(isUnclear, answer.CannotTell.Any(
            one => one.StartsWith("ordered-vacuum-above-ceiling", StringComparison.Ordinal) && one.EndsWith(unclear, StringComparison.Ordinal)));
        Assert.Equal(told, answer.Report.GetProperty("orders")[0].GetProperty("doNotSuction").ValueKind.ToString());
    }

    private static string Equipment(string vacuum) =>
        $$$"""{"resourceType":"DeviceRequest","id":"d","basedOn":[{"reference":"ServiceRequest/r"}],"status":"active","intent":"order","authoredOn":"2026-03-01T08:00:00Z","subject":{"reference":"Patient/p"},"codeCodeableConcept":{"text":"Suction regulator"},"parameter":[{"code":{"coding":[{"system":"{{{Given.Row}}}","code":"vacuum-set"}]},"valueQuantity":{"value":{{{vacuum}}},"system":"http://unitsofmeasure.org","code":"mm[Hg]"}}]}""";

    private static string Order(string status, string says, int version, string saved) =>
        $$$"""{"resourceType":"ServiceRequest","id":"r","meta":{"versionId":"{{{version}}}","lastUpdated":"2026-03-01T{{{saved}}}:00Z"},"status":"{{{status}}}","intent":"order","authoredOn":"2026-03-01T08:00:00Z","subject":{"reference":"Patient/p"},"code":{"coding":[{"system":"{{{Given.Row}}}","code":"suction-pass"}]}{{{says}}}}""";
}
