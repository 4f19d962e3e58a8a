using System.Buffers;
using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>What stands in an answer, and what never does.</summary>
public sealed class CardsJsonTests
{
    private const string Resource = "{ \"resourceType\":\"DeviceRequest\", \"n\":1.50,\"s\":\"\\u0041<é\" }";

    [Fact]
    public void No_cards_are_an_empty_list() => Assert.Equal("""{"cards":[]}""", Text([]));

    [Fact]
    public void A_whole_card_is_written_in_the_standards_terms() => Assert.Equal(
        """
        {"cards":[{"uuid":"00000001-0000-0000-0000-000000000000","summary":"16 Fr is large for a 7.5 mm tube","detail":"**16 Fr**","indicator":"warning","source":{"label":"Policy","url":"https://hosp.test/p","topic":{"code":"catheter-too-wide","system":"urn:c","display":"Catheter"}},"suggestions":[{"label":"10 Fr","uuid":"00000002-0000-0000-0000-000000000000","actions":[{"type":"update","description":"Set 10 Fr","resource":
        """ + Resource + """
        }]}],"selectionBehavior":"at-most-one","overrideReasons":[{"code":"thick","system":"urn:o","display":"Thick"}]}]}
        """, Text([Whole()]));

    [Fact]
    public void What_is_not_given_is_left_out()
    {
        var bare = Whole() with { Detail = "", Source = new CardSource("Policy", null, null), Suggestions = default, OverrideReasons = [], Indicator = CardIndicator.Info };

        Assert.Equal("""{"cards":[{"uuid":"00000001-0000-0000-0000-000000000000","summary":"16 Fr is large for a 7.5 mm tube","indicator":"info","source":{"label":"Policy"}}]}""", Text([bare]));
    }

    [Fact]
    public void Words_of_any_letters_come_out_as_they_went_in()
    {
        const string Odd = "\"<b>\\\u0001é中\U0001FAC1";

        Assert.Equal(Odd, JsonNode.Parse(Text([Whole() with { Detail = Odd }]))!["cards"]![0]!["detail"]!.GetValue<string>());
    }

    [Theory]
    [InlineData(139, true)]
    [InlineData(140, false)]
    public void A_summary_has_fewer_than_140_characters(int length, bool isWritten)
    {
        var card = Whole() with { Summary = new string('a', length) };

        Assert.Equal(isWritten, Record.Exception(() => Text([card])) is null);
    }

    [Fact]
    public void Of_a_card_that_lacks_something_nothing_is_written()
    {
        var suggestion = Whole().Suggestions[0];
        Card[] lacking =
        [
            Whole() with { Summary = " " }, Whole() with { Source = new CardSource("", null, null) }, Whole() with { Suggestions = [suggestion with { Label = "" }] },
            Whole() with { Suggestions = [suggestion with { Description = "" }] }, Whole() with { Suggestions = [suggestion with { Resource = default }] },
            Whole() with { Suggestions = [suggestion with { Resource = "[]"u8.ToArray() }] }, Whole() with { Suggestions = [suggestion with { Resource = "{} {}"u8.ToArray() }] },
            Whole() with { OverrideReasons = [new CardCoding("urn:o", "thick", "")] }, Whole() with { OverrideReasons = [new CardCoding("urn:o", "", "Thick")] },
        ];

        Assert.All(lacking, card =>
        {
            var output = new ArrayBufferWriter<byte>();
            Assert.Throws<ArgumentException>(() => CardsJson.Write([Whole(), card], output));
            Assert.Equal(0, output.WrittenCount);
        });
    }

    [Fact]
    public void A_resource_as_deep_as_a_request_may_be_is_written()
    {
        var deep = Encoding.UTF8.GetBytes("{\"a\":" + new string('[', 63) + new string(']', 63) + "}");

        var text = Text([Whole() with { Suggestions = [Whole().Suggestions[0] with { Resource = deep }] }]);

        Assert.Contains(Encoding.UTF8.GetString(deep), text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_discovery_lists_services_with_what_they_ask_for()
    {
        HookService[] services =
        [
            new("suction-orders", Hook.OrderSign, "Suction", "Orders of suction", [("patient", "Patient/{{context.patientId}}"), ("airway", "Device?patient={{context.patientId}}")], "An agreement"),
            new("suction-chart", Hook.PatientView, "", "Charts", [], null),
        ];

        var written = JsonNode.Parse(Discovered(services))!;

        Assert.Equal(
            """{"services":[{"hook":"order-sign","title":"Suction","description":"Orders of suction","id":"suction-orders","prefetch":{"patient":"Patient/{{context.patientId}}","airway":"Device?patient={{context.patientId}}"},"usageRequirements":"An agreement"},{"hook":"patient-view","description":"Charts","id":"suction-chart"}]}""",
            written.ToJsonString());
    }

    [Fact]
    public void A_discovery_without_services_is_an_empty_list() => Assert.Equal("""{"services":[]}""", Discovered([]));

    [Fact]
    public void A_service_without_what_is_required_is_not_written()
    {
        var service = new HookService("a", Hook.OrderSign, "", "b", [], null);

        Assert.All(
            [service with { Id = "" }, service with { Description = "" }, service with { Prefetch = [("", "b")] }, service with { Prefetch = [("a", "")] }],
            lacking => Assert.Throws<ArgumentException>(() => Discovered([lacking])));
    }

    private static Card Whole() => new(
        new Guid(1, 0, 0, new byte[8]), "16 Fr is large for a 7.5 mm tube", CardIndicator.Warning, "**16 Fr**",
        new CardSource("Policy", "https://hosp.test/p", new CardCoding("urn:c", "catheter-too-wide", "Catheter")),
        [new CardSuggestion(new Guid(2, 0, 0, new byte[8]), "10 Fr", "Set 10 Fr", Encoding.UTF8.GetBytes(Resource))],
        [new CardCoding("urn:o", "thick", "Thick")]);

    private static string Text(IReadOnlyList<Card> cards)
    {
        var output = new ArrayBufferWriter<byte>();
        CardsJson.Write(cards, output);
        return Encoding.UTF8.GetString(output.WrittenSpan);
    }

    private static string Discovered(IReadOnlyList<HookService> services)
    {
        var output = new ArrayBufferWriter<byte>();
        DiscoveryJson.Write(services, output);
        return Encoding.UTF8.GetString(output.WrittenSpan);
    }
}
