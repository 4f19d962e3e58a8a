using System.Text;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>The numbers of an order as told are the ones judged: the deepest vacuum, the largest catheter, both ends of a range in one unit.</summary>
public sealed class OrderNumbersTests
{
    [Theory]
    [InlineData("120 mm[Hg]", "200 mm[Hg]", "200 mm[Hg]")]
    [InlineData("200 mm[Hg]", "120 mm[Hg]", "200 mm[Hg]")]
    [InlineData("120 mm[Hg]", "20 kPa", "20 kPa")] // 150 mm[Hg]
    [InlineData("120 mm[Hg]", "900 mm[Hg]", "120 mm[Hg]")] // no vacuum is so deep: its unit is in doubt
    public void OfSeveralVacuumsTheOneJudgedIsTold(string one, string other, string told)
    {
        var words = Words(Parameter("vacuum-set", Value(one)), Parameter("vacuum-set", Value(other)));

        Assert.Equal((null, told), (words.VacuumLow, FormattableString.Invariant($"{words.VacuumHigh} {words.VacuumUnit}")));
    }

    [Fact]
    public void OfSeveralCathetersTheLargestIsTold() => Assert.Equal(
        16m, Words(Parameter("catheter-size", Value("10 [Ch]")), Parameter("catheter-size", Value("16 [Ch]")), Parameter("catheter-size", Value("12 [Ch]"))).CatheterFr);

    [Theory]
    [InlineData("80 mm[Hg]", "120 mm[Hg]", "80", "120 mm[Hg]", "")]
    [InlineData("-150 mm[Hg]", "-80 mm[Hg]", "80", "150 mm[Hg]", "")]
    [InlineData("80 mm[Hg]", "20 kPa", "10.666", "20 kPa", "")]
    [InlineData("80", "120 mm[Hg]", "", "120 mm[Hg]", "80")]
    public void BothEndsOfARangeAreToldInOneUnitTheDeeperAsTheUpper(string low, string high, string lowTold, string highTold, string unread)
    {
        var words = Words(Parameter("vacuum-set", "\"valueRange\":{\"low\":" + Quantity(low) + ",\"high\":" + Quantity(high) + "}"));

        Assert.Equal(
            (lowTold, highTold, unread),
            (FormattableString.Invariant($"{words.VacuumLow}"), FormattableString.Invariant($"{words.VacuumHigh} {words.VacuumUnit}"), string.Join("; ", words.Unread)));
    }

    private static OrderWords Words(params string[] parameters) => new OrderWordsReader(ShippedMaps.WithDemoRows).Read(new Arrival(
        ArrivalKind.Resource, "input.json", null, null, null, DateTimeOffset.UnixEpoch, KnownBy.Import, Encoding.UTF8.GetBytes($$"""
            {"resourceType":"DeviceRequest","id":"d","status":"active","intent":"order","codeCodeableConcept":{"text":"Suction regulator"},
             "subject":{"reference":"Patient/p1"},"authoredOn":"2026-03-01T08:00:00Z","parameter":[{{string.Join(',', parameters)}}]}
            """)))[0];

    private static string Parameter(string code, string value) =>
        $$"""{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"{{code}}"}]},{{value}}}""";

    private static string Value(string number) => "\"valueQuantity\":" + Quantity(number);

    private static string Quantity(string number) => number.Split(' ') is [var value, var unit]
        ? $$"""{"value":{{value}},"system":"http://unitsofmeasure.org","code":"{{unit}}"}"""
        : $$"""{"value":{{number}}}""";
}
