using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>The texts of an order: what of them becomes a fact, and where it stands.</summary>
public sealed class OrderTextsTests
{
    private const string Coded = """{"coding":[{"system":"http://snomed.info/sct","code":"230040009"}]}""";

    [Theory]
    [InlineData("max 300 mmHg, 14 Fr", "order-vacuum-high=300 mm[Hg]; catheter-size=14 [Ch]")]
    [InlineData("less than 20 kPa", "order-vacuum-high=<20 kPa")]
    [InlineData("vacuum 100-150", "order-vacuum-low=100; order-vacuum-high=150")]
    [InlineData("q2h PRN", "order-interval=2 h; order-by-clock=no; order-as-needed=yes")]
    [InlineData("q2h/PRN", "order-interval=2 h; order-as-needed=yes; order-unread=text")]
    [InlineData("saline 3 mL with each pass", "saline-instilled=3 mL")]
    [InlineData("saline only if thick", "order-under-condition=yes; allowance-reason=thick-secretions")]
    [InlineData("saline only if needed", "order-under-condition=yes")]
    [InlineData("no saline, closed, shallow, to 12 cm", "insertion-depth=12 cm; suction-system=closed; saline-instilled=no")]
    [InlineData("deep only if shallow fails", "order-under-condition=deep")]
    [InlineData("preoxygenate with 100 %", "preoxygenation=100 %")]
    [InlineData("preoxygenate, raise FiO2 by 10 %", "preoxygenation=yes")]
    [InlineData("preox ↑FiO2 10%", "preoxygenation=yes")]
    [InlineData("increase FiO2 to 60 % before suction", "preoxygenation=60 %")]
    [InlineData("preox FiO2 0.8", "preoxygenation=80.0 %")]
    [InlineData("suction for thick secretions, saline 2 mL", "saline-instilled=2 mL; order-by-clock=no; order-as-needed=yes; allowance-reason=thick-secretions")]
    [InlineData("do not suction", "order-do-not-suction=yes")]
    [InlineData("hold suction until 1400, then q4h", "order-interval=4 h; order-by-clock=yes; order-do-not-suction=unreadable")]
    [InlineData("full line", "regulator-mode=full-line; order-unread=text")]
    [InlineData("at the therapist's discretion", "order-unread=text")]
    [InlineData("1) PRN suction 12 Fr 2) q4h suction 10 Fr", "catheter-size=12 [Ch]; order-by-clock=no; order-as-needed=yes; catheter-size=10 [Ch]; order-interval=4 h; order-by-clock=yes")]
    public void ATextBecomesFacts(string note, string facts) => Assert.Equal(facts, Facts($$""" "note":[{"text":"{{note}}"}] """));

    [Fact]
    public void CodedTimingGoesBeforeTextAndThatTheyDifferIsKept()
    {
        const string timing = """ "occurrenceTiming":{"repeat":{"frequency":1,"period":4,"periodUnit":"h"}} """;

        Assert.Equal("order-interval=4 h; order-by-clock=yes; order-unread=text", Facts(timing + """, "note":[{"text":"q2h"}] """));
        Assert.Equal("order-interval=4 h; order-by-clock=yes", Facts(timing + """, "note":[{"text":"q4h"}] """));
        Assert.Equal(["q2h"], Words(timing + """, "note":[{"text":"q2h"}] """)[0].Unread);
    }

    [Fact]
    public void OfAnOrderNotToSuctionNoTextIsRead() =>
        Assert.Equal("order-do-not-suction=unreadable; order-unread=text", Facts(""" "doNotPerform":true, "note":[{"text":"max 300 mmHg"}] """));

    [Theory]
    [InlineData("""{"text":"Respiratory care"}""", "Sx ETT q2h", true)]
    [InlineData("""{"coding":[{"system":"urn:local","code":"77"}],"text":"Nursing order"}""", "Trach suction prn", true)]
    [InlineData("""{"text":"Oral suction"}""", "prn", false)]
    [InlineData("""{"coding":[{"system":"http://snomed.info/sct","code":"168537006"}],"text":"X-ray"}""", "suction ETT first", false)]
    [InlineData("""{"text":"Supersedes: suction prn, 12 Fr"}""", "see chart", true)]
    [InlineData("""{"text":"Replaces order of 2/3 (14 Fr): now 12 Fr, suction PRN"}""", "see chart", true)]
    [InlineData("""{"text":"ETT suction \u202E021\u202C mmHg"}""", "see chart", true)]
    [InlineData("""{"text":"Supersedes oral suction"}""", "see chart", false)]
    public void AnOrderThatNobodyCodedIsOneOfSuctionWhereItsWordsSaySo(string code, string note, bool isOrder) =>
        Assert.Equal(isOrder, Words($$""" "note":[{"text":"{{note}}"}] """, code).Count > 0);

    [Fact]
    public void EachOrderInATextIsAPart()
    {
        var words = Words(""" "note":[{"text":"1) ETT suction PRN, 150 mmHg\n2) Trach suction q4h, 100 mmHg"}] """);

        Assert.Equal([(1, 150m, false), (2, 100m, true)], words.Select(part => (part.Part, part.VacuumHigh!.Value, part.ByClock!.Value)));
    }

    [Fact]
    public void AValueSaysInWhichElementAndWhereItStands()
    {
        var order = Order(""" "note":[{"text":"Suction prn."},{"text":"Vacuum max 300 mmHg"}] """, Coded);
        var ordinal = TextOrdinal.Of(0, OrderField.Vacuum);

        Assert.Equal("max 300 mmHg", new ChartedText().ValueOf(Encoding.UTF8.GetBytes(order), ordinal));
        Assert.Equal("note[1].text, characters 8 to 19 of: Vacuum max 300 mmHg", new ChartedText().PlaceOf(Encoding.UTF8.GetBytes(order), ordinal));
        Assert.Null(new ChartedText().PlaceOf(Encoding.UTF8.GetBytes(order), 0));
    }

    [Fact]
    public void WhatMakesAnOrderOneByTheClockIsIntervalAndNeed()
    {
        var order = Encoding.UTF8.GetBytes(Order(""" "note":[{"text":"Suction ETT q2h and prn"}] """, Coded));

        Assert.Equal("q2h | prn", new ChartedText().ValueOf(order, TextOrdinal.Of(0, OrderField.ByClock)));
        Assert.Equal("note[0].text, characters 13 to 15, 21 to 23 of: Suction ETT q2h and prn", new ChartedText().PlaceOf(order, TextOrdinal.Of(0, OrderField.ByClock)));
    }

    [Fact]
    public void WhatIsUnreadIsGivenInItsWords()
    {
        var order = Order(""" "note":[{"text":"q2h/PRN"},{"text":"Mother may stay"}] """, Coded);

        Assert.Equal("q2h/PRN | Mother may stay", new ChartedText().ValueOf(Encoding.UTF8.GetBytes(order), TextOrdinal.OfUnread(0)));
    }

    [Fact]
    public void OfAnOrderWhoseWordsCannotBeReadItIsKeptThatTheyStandThere()
    {
        Assert.Equal(["Supersedes: suction prn, 12 Fr"], Words(""" "status":"active" """, """{"text":"Supersedes: suction prn, 12 Fr"}""")[0].Unread);
        Assert.Equal("order-unread=text", Facts(""" "note":[{"text":"\u202E021\u202C mmHg"}] """));
        Assert.Equal("order-vacuum-high=120 mm[Hg]", Facts(""" "note":[{"text":"\u202A120 mmHg\u202C"}] """));
    }

    [Fact]
    public void AnErrorProneFormIsAProblem() => Assert.Equal("AG2140", Some.Read(Order(""" "note":[{"text":"12.0 Fr"}] """, Coded)).Codes);

    private static string Facts(string members) => string.Join("; ", Some.Read(Order(members, Coded)).Reading.Facts.Skip(2)
        .Select(fact => $"{fact.Concept}={Read.InWords(fact.Value)}"));

    private static IReadOnlyList<OrderWords> Words(string members, string code = Coded) => new OrderWordsReader(ShippedMaps.WithDemoRows).Read(
        new Arrival(ArrivalKind.Resource, "input.json", null, null, null, DateTimeOffset.UnixEpoch, KnownBy.Import, Encoding.UTF8.GetBytes(Order(members, code))));

    private static string Order(string members, string code) => $$"""
        {"resourceType":"ServiceRequest","id":"s","status":"active","intent":"order","code":{{code}},
         "subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T08:00:00Z",{{members}} }
        """;
}
