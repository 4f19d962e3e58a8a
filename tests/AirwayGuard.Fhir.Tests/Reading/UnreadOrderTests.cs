using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>What of an order is not read is named and kept as a fact; what it forbids is the act or a part of it.</summary>
public sealed class UnreadOrderTests
{
    private const string Care = "https://airwayguard.example.org/fhir/CodeSystem/airway-care", Answer = Care + "-answer";

    [Theory]
    [InlineData("\"asNeededBoolean\":true", "")]
    [InlineData("\"asNeededBoolean\":true,\"note\":[{\"text\":\"  \"}]", "")]
    [InlineData("\"patientInstruction\":\"cough first\"", "cough first")]
    [InlineData("\"orderDetail\":[{\"coding\":[{\"system\":\"urn:local\",\"code\":\"7\"}]}]", "7")]
    [InlineData("\"orderDetail\":[{\"coding\":[{\"system\":\"urn:local\",\"code\":\"7\",\"display\":\"Gently\"}]}]", "Gently")]
    [InlineData("\"orderDetail\":[{\"coding\":[{\"system\":\"" + Answer + "\",\"code\":\"closed\",\"display\":\"Closed\"}],\"text\":\"closed\"}]", "")]
    [InlineData("\"orderDetail\":[{\"coding\":[{\"system\":\"" + Answer + "\",\"code\":\"closed\"}],\"text\":\"Closed, 14 Fr\"}]", "")]
    [InlineData("\"occurrenceTiming\":{\"code\":{\"text\":\"each turn\"}}", "each turn")]
    [InlineData("\"occurrenceTiming\":{\"repeat\":{\"when\":[\"MORN\"]}}", "timing")]
    [InlineData("\"occurrenceTiming\":{\"repeat\":{\"frequency\":0.5,\"period\":4,\"periodUnit\":\"h\"}}", "timing")]
    [InlineData("\"occurrenceTiming\":{\"repeat\":{\"frequency\":1.5,\"period\":4,\"periodUnit\":\"h\"}}", "timing")]
    [InlineData("\"occurrenceTiming\":{\"repeat\":{\"frequency\":0.0000000000000000000000000001,\"period\":4,\"periodUnit\":\"h\"}}", "timing")]
    [InlineData("\"occurrenceTiming\":{\"repeat\":{\"period\":79228162514264337593543950335,\"periodUnit\":\"d\"}}", "timing")]
    [InlineData("\"quantityQuantity\":{\"value\":3,\"unit\":\"times\"}", "quantity 3 times")]
    [InlineData("\"quantityRange\":{\"low\":{\"value\":3},\"high\":{\"value\":4,\"code\":\"/d\"}}", "quantity 3 to 4 /d")]
    [InlineData("\"orderDetail\":[{\"coding\":[{\"system\":\"" + Answer + "\",\"code\":\"full-line\"}]},{\"text\":\"Intermittent\"},{\"text\":\"regulated\"}]", "full-line; intermittent")]
    [InlineData("\"orderDetail\":[{\"coding\":[{\"system\":\"" + Answer + "\",\"code\":\"full-line\"}],\"text\":\"full line, 20 s\"}]", "full-line; full line; 20 s")]
    public void WhatOfAServiceRequestIsNotReadIsNamedAndKept(string members, string unread) => AssertUnread(Service(members), unread);

    [Theory]
    [InlineData("{\"code\":{\"coding\":[{\"system\":\"" + Care + "\",\"code\":\"suction-system\"}]},\"valueCodeableConcept\":{\"text\":\"closed\"}}", "")]
    [InlineData("{\"code\":{\"coding\":[{\"system\":\"" + Care + "\",\"code\":\"suction-system\"}]},\"valueCodeableConcept\":{\"text\":\"either\"}}", "suction-system either")]
    [InlineData("{\"code\":{\"text\":\"tubing\"},\"valueBoolean\":true}", "tubing")]
    [InlineData("{\"valueBoolean\":true}", "parameter")]
    [InlineData("{\"code\":{\"coding\":[{\"system\":\"" + Care + "\",\"code\":\"catheter-size\"}]}}", "catheter-size")]
    [InlineData("{\"code\":{\"coding\":[{\"system\":\"" + Care + "\",\"code\":\"regulator-mode\"}]},\"valueCodeableConcept\":{\"text\":\"full-line\"}}", "full-line")]
    [InlineData("{\"code\":{\"coding\":[{\"system\":\"" + Care + "\",\"code\":\"regulator-mode\"}]},\"valueCodeableConcept\":{\"text\":\"intermittent\"}}", "intermittent")]
    [InlineData("{\"code\":{\"coding\":[{\"system\":\"" + Care + "\",\"code\":\"regulator-mode\"}]},\"valueCodeableConcept\":{\"text\":\"regulated\"}}", "")]
    public void AParameterThatIsNotReadIsNamedAndKept(string parameter, string unread) => AssertUnread($$"""
        {"resourceType":"DeviceRequest","id":"d","status":"active","intent":"order","codeCodeableConcept":{"text":"Suction regulator"},
         "subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T08:00:00Z","parameter":[{{parameter}}]}
        """, unread);

    [Fact]
    public void NoDeepSuctionIsShallowSuctionAndNoProhibition()
    {
        var deep = "\"doNotPerform\":true,\"orderDetail\":[{\"coding\":[{\"system\":\"" + Answer + "\",\"code\":\"deep\"}]}]";

        Assert.Equal(["depth-technique=shallow", "order-do-not-suction=no"], Facts(deep));
        Assert.Equal(
            ["suction-system=unreadable", "order-do-not-suction=no", "order-unread=text"], Facts(deep.Replace("deep", "closed", StringComparison.Ordinal)));
    }

    // The words say what is forbidden, or when, or that something else is asked for: nobody can tell whether it is the whole act.
    [Theory]
    [InlineData("\"bodySite\":[{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"45206002\"}]}]", "45206002")]
    [InlineData("\"bodySite\":[{\"text\":\"nose\"}]", "nose")]
    [InlineData("\"orderDetail\":[{\"text\":\"nasal route\"}]", "nasal route")]
    [InlineData("\"orderDetail\":[{\"text\":\"with saline\"}]", "with saline")]
    [InlineData("\"orderDetail\":[{\"coding\":[{\"system\":\"urn:local\",\"code\":\"7\"}]}],\"asNeededBoolean\":true", "7")]
    [InlineData("\"note\":[{\"text\":\"no DEEP suction\"}]", "no DEEP suction")]
    public void OfAnOrderNotToSuctionWithWordsThatAreNotReadNobodyCanTellWhatItForbids(string says, string unread)
    {
        var members = "\"doNotPerform\":true," + says;

        Assert.Equal(["order-do-not-suction=unreadable", "order-unread=text"], Facts(members));
        AssertUnread(Service(members), unread);
        Assert.Null(Words(Service(members)).DoNotSuction);
    }

    [Theory]
    [InlineData("{\"text\":\"Suction ETT\"}", "", true)]
    [InlineData("{\"text\":\"Do not suction\"}", "", true)]
    [InlineData("{\"text\":\"no nasotracheal suction\"}", "no nasotracheal suction", null)]
    [InlineData("{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"230040009\"}]}", "", true)]
    [InlineData("{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"230040009\"}],\"text\":\"not via the nose\"}", "not via the nose", null)]
    public void AnOrderNotToSuctionForbidsTheActWhereItsTextSaysNoMore(string code, string unread, bool? isForbidden)
    {
        var order = Service("\"doNotPerform\":true").Replace("{\"text\":\"Suction ETT\"}", code, StringComparison.Ordinal);

        AssertUnread(order, unread);
        Assert.Equal(isForbidden, Words(order).DoNotSuction);
    }

    [Theory]
    [InlineData("suction ETT q2h vacuum 300 mmHg", "", "q2h")]
    [InlineData("no suction", "", "no suction")]
    [InlineData("Gentle airway suction", "gentle airway suction", "")]
    [InlineData("Endotracheal suctioning", "", "")]
    public void WordsBesideTheCodeOfAnOrderAreReadAndNamedWhereTheyContradictIt(string text, string display, string unread) => AssertUnread(
        Service("\"asNeededBoolean\":true").Replace(
            "{\"text\":\"Suction ETT\"}", $$"""{"coding":[{"system":"http://snomed.info/sct","code":"230040009","display":"{{display}}"}],"text":"{{text}}"}""", StringComparison.Ordinal), unread);

    // It was once read as false: an order not to suction then asked for it.
    [Theory]
    [InlineData("\"true\"")]
    [InlineData("\"false\"")]
    [InlineData("1")]
    public void AnOrderOfWhichNobodyCanReadWhetherItForbidsIsReadNoFurther(string forbids)
    {
        var members = "\"doNotPerform\":" + forbids + ",\"asNeededBoolean\":true,\"orderDetail\":[{\"coding\":[{\"system\":\"" + Answer + "\",\"code\":\"closed\"}]}]";

        Assert.Equal(["order-do-not-suction=unreadable", "order-unread=text"], Facts(members));
        Assert.Equal("AG2101", Some.Read(Service(members)).Codes);
        AssertUnread(Service(members), "doNotPerform; closed");
    }

    [Theory]
    [InlineData("ServiceRequest")]
    [InlineData("DeviceRequest")]
    public void AnOrderOfUnknownStatusIsTold(string type) => Assert.Equal("AG2111", Some.Read(
        Service("\"asNeededBoolean\":true").Replace("\"ServiceRequest\"", $"\"{type}\"", StringComparison.Ordinal).Replace("\"active\"", "\"unknown\"", StringComparison.Ordinal)
            .Replace("\"code\":", type == "DeviceRequest" ? "\"codeCodeableConcept\":" : "\"code\":", StringComparison.Ordinal)).Codes);

    [Fact]
    public void WhatForbidsPartOfTheActAtTimesAsksForNothingAtThem() => Assert.DoesNotContain(
        "order-by-clock=yes", Facts("\"doNotPerform\":true,\"occurrenceTiming\":{\"code\":{\"coding\":[{\"code\":\"BID\"}]}},"
            + "\"orderDetail\":[{\"coding\":[{\"system\":\"" + Answer + "\",\"code\":\"deep\"}]}]"), StringComparer.Ordinal);

    [Theory]
    [InlineData("\"start\":\"2026-03-01T10:00:00Z\",\"end\":\"2026-03-02T10:00:00Z\"", "2026-03-01T10:00:00Z", "2026-03-02T10:00:00Z")]
    [InlineData("\"start\":\"2026-02-01T10:00:00Z\"", "2026-03-01T08:00:00Z", null)]
    [InlineData("\"end\":\"2026-03-02\"", "2026-03-01T08:00:00Z", null)] // a date alone is no instant, so the prohibition stands
    public void AProhibitionHoldsUntilItsStatedEnd(string period, string from, string? to)
    {
        var fact = Some.Read(Service("\"doNotPerform\":true,\"occurrencePeriod\":{" + period + "}")).Reading.Facts.Single(one => one.Concept == Concepts.OrderDoNotSuction);

        Assert.Equal((Ticks(from), to is null ? long.MaxValue : Ticks(to)), (fact.EffectiveFrom, fact.EffectiveTo));
    }

    private static long Ticks(string time) => DateTimeOffset.Parse(time, System.Globalization.CultureInfo.InvariantCulture).UtcTicks;

    private static string[] Facts(string members) =>
        [.. Some.Read(Service(members)).Reading.Facts.Skip(2).Select(fact => $"{fact.Concept}={Read.InWords(fact.Value)}")];

    private static OrderWords Words(string order) => new OrderWordsReader(ShippedMaps.WithDemoRows).Read(
        new Arrival(ArrivalKind.Resource, "input.json", null, null, null, DateTimeOffset.UnixEpoch, KnownBy.Import, Encoding.UTF8.GetBytes(order)))[0];

    private static void AssertUnread(string order, string unread)
    {
        Assert.Equal(unread, string.Join("; ", Words(order).Unread));
        Assert.Equal(unread.Length > 0, Some.Read(order).Reading.Facts.Exists(fact => fact.Concept == Concepts.OrderUnread));
    }

    private static string Service(string members) => $$"""
        {"resourceType":"ServiceRequest","id":"s","status":"active","intent":"order","code":{"text":"Suction ETT"},
         "subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T08:00:00Z",{{members}}}
        """;
}
