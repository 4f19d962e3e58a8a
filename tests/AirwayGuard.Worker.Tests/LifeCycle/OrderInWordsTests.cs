using AirwayGuard.Core.Findings;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>An order in words is judged when it arrives, and again when it, or the tube it rests on, changes.</summary>
public sealed class OrderInWordsTests : AllChecksLifeCycle
{
    private const string Vacuum = "ordered-vacuum-above-ceiling", Wide = "catheter-too-wide", ByClock = "suction-ordered-by-clock", Changed = "tube-changed-since-catheter-chosen";

    [Fact]
    public async Task WhatTheWordsAskForIsFlagged_AndEndsWhenTheOrderIsMended()
    {
        await RoundAsync(Ward.Patient, Tube(8, 0), Order("Sx ETT q2h, 200 mmHg, 14 Fr"));
        Assert.Equal(["active", "active", "active"], await StatusesAsync(Vacuum, Wide, ByClock));

        await RoundAsync(Order("Sx ETT prn, max 150 mmHg, 10 Fr"));

        Assert.Equal(["inactive", "inactive", "inactive"], await StatusesAsync(Vacuum, Wide, ByClock));
        Assert.All(await RecordsAsync(Vacuum), record => Assert.Equal(FindingState.Cleared, record.State));
        await Bench.NothingIsDoubledAsync();
    }

    // The catheter was chosen for the tube before; whether it fits this one is for whoever renews the order.
    [Fact]
    public async Task AnOrderThatNamesACatheter_IsJudgedAgainWhenTheTubeIsExchanged()
    {
        await RoundAsync(Ward.Patient, Tube(8, 0), Order("Sx ETT prn, 12 Fr"));
        Assert.Empty(await Bench.FlagsAsync(Wide));

        Bench.Clock.Now = Ward.Morning.AddMinutes(90);
        await RoundAsync(Tube(7, 60));

        Assert.Equal("final", Assert.Single(await Bench.IssuesAsync(Changed)).Status());
    }

    // 12 Fr is 4 mm: half of 8 mm, which is allowed, and more than half of 7 mm.
    [Fact]
    public async Task AnOrderThatFits_IsJudgedAgainWhenTheTubesSizeIsCorrected()
    {
        await RoundAsync(Ward.Patient, Tube(8, 0), Order("Sx ETT prn, 12 Fr"));

        await RoundAsync(Tube(7, 0).Replace("tube-7", "tube-8", StringComparison.Ordinal));

        Assert.Equal(["active"], await StatusesAsync(Wide));
    }

    [Fact]
    public async Task AnOrderPutOnHoldOrReplaced_AsksForNothing()
    {
        await RoundAsync(Ward.Patient, Order("Sx ETT q2h"));

        await RoundAsync(Order("Sx ETT q2h", "revoked"), Order("Sx ETT prn", "active", "r2", "\"replaces\":[{\"reference\":\"ServiceRequest/r\"}],"));

        Assert.Equal(["inactive"], await StatusesAsync(ByClock));
    }

    private async Task<string[]> StatusesAsync(params string[] checks)
    {
        var statuses = new List<string>();
        foreach (var check in checks)
        {
            statuses.Add(Assert.Single(await Bench.FlagsAsync(check)).Status());
        }

        return [.. statuses];
    }

    private static string Tube(int size, int minutes) => $$"""
        {"resourceType":"Observation","id":"tube-{{size}}","status":"final","code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"tube-inner-diameter"}] },
         "subject":{"reference":"Patient/p"},"effectiveDateTime":"{{Ward.Morning.AddMinutes(minutes):yyyy-MM-ddTHH:mm:ssZ}}","valueQuantity":{"value":{{size}},"unit":"mm"} }
        """;

    private static string Order(string note, string status = "active", string id = "r", string more = "") => $$"""
        {"resourceType":"ServiceRequest","id":"{{id}}",{{more}}"status":"{{status}}","intent":"order","authoredOn":"2026-03-02T08:00:00Z","subject":{"reference":"Patient/p"},
         "code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}] },"note":[{"text":"{{note}}"}] }
        """;

    private async Task RoundAsync(params string[] resources)
    {
        await PutAsync(resources);
        await Bench.RoundAsync();
    }
}
