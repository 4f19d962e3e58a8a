using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Fhir.CdsHooks;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace AirwayGuard.Fhir.Tests.CdsHooks;

/// <summary>A suggested order is the drafted one with one element changed.</summary>
public sealed class OrderEditTests
{
    private const string Order = """
        { "resourceType" : "DeviceRequest","id":"draft-1", "status":"draft", "intent":"order",
          "codeCodeableConcept":{"text":"Suction regulator"},
          "subject":{"reference":"Patient/p1"},
          "parameter":[
            {"code":{"text":"size"},"valueQuantity":{"value":16.0,"unit":"Fr","system":"http://unitsofmeasure.org","code":"[Ch]"}},
            {"valueRange":{"high":{"unit":"mmHg","value":1.80e2,"system":"http://unitsofmeasure.org","code":"mm[Hg]"},"low":{"value":80.50,"unit":"mmHg"}}},
            {"id":"c","valueCodeableConcept":{"id":"k","coding":[{"id":"n", "display":"Open","version":"1","system":"urn:s","code":"open"}],"text":"open","extension":[{"url":"urn:e","valueDecimal":1.50}]}},
            {"valueBoolean":true}],
          "note":[{"text":"as \u0061lways \/ 1.50"}] }
        """;

    private const string Service = """
        {"resourceType":"ServiceRequest","id":"draft-2","status":"draft","intent":"order","code":{"text":"Suction"},"subject":{"reference":"Patient/p1"},
         "orderDetail":[{"text":"Vacuum 120 mmHg"},{"text":"deep","coding":[{"system":"urn:s","code":"deep"}]}],"quantityQuantity":{"value":1.50}}
        """;

    private static readonly CardCoding Closed = new("urn:s", "closed", "Closed \"in-line\"");

    [Fact]
    public void A_number_is_changed_and_no_other_byte() => Assert.Equal(Order.Replace("16.0", "10", StringComparison.Ordinal), Text(OrderEdit.SetQuantity(Bytes(Order), 0, 10m)));

    [Theory]
    [InlineData("120", "120")]
    [InlineData("120.50", "120.50")]
    [InlineData("0.0000001", "0.0000001")]
    public void A_number_is_written_with_its_decimals(string value, string written) => Assert.Equal(
        Order.Replace("1.80e2", written, StringComparison.Ordinal),
        Text(OrderEdit.SetRangeHigh(Bytes(Order.Replace("80.50", "0", StringComparison.Ordinal)), 1, decimal.Parse(value, System.Globalization.CultureInfo.InvariantCulture)))?.Replace("\"low\":{\"value\":0", "\"low\":{\"value\":80.50", StringComparison.Ordinal));

    [Fact]
    public void A_coding_is_changed_and_what_meant_the_old_one_goes() => Assert.Equal(
        Order.Replace(
            """{"id":"k","coding":[{"id":"n", "display":"Open","version":"1","system":"urn:s","code":"open"}],"text":"open","extension":[{"url":"urn:e","valueDecimal":1.50}]}""",
            """{"id":"k","coding":[{"id":"n","version":"1","system":"urn:s","code":"closed","display":"Closed \u0022in-line\u0022"}],"extension":[{"url":"urn:e","valueDecimal":1.50}]}""", StringComparison.Ordinal),
        Text(OrderEdit.SetCoding(Bytes(Order), 2, Closed)));

    [Theory]
    [InlineData("\"display\":\"Open\",", "")] // words are added where there were none
    [InlineData("\"display\":\"Open\"", "\"display\":null")]
    public void The_words_stand_behind_the_code_whether_there_were_any_or_not(string old, string put) => Assert.Contains(
        "\"code\":\"closed\",\"display\":\"Closed\"}]", Text(OrderEdit.SetCoding(Bytes(Order.Replace(old, put, StringComparison.Ordinal)), 2, new CardCoding("urn:s", "closed", "Closed"))), StringComparison.Ordinal);

    [Fact]
    public void Old_words_never_stand_beside_a_new_code() =>
        Assert.Contains("\"system\":\"urn:s\",\"code\":\"closed\"}]", Text(OrderEdit.SetCoding(Bytes(Order), 2, new CardCoding("urn:s", "closed", ""))), StringComparison.Ordinal);

    [Theory]
    [InlineData("\"coding\":[{", "\"coding\":[{\"system\":\"urn:local\",\"code\":\"O1\"},{")] // what the client calls the new answer is not known
    [InlineData("\"coding\":[{", "\"coding\":[null,{")]
    [InlineData("\"system\":\"urn:s\"", "\"system\":\"urn:local\"")]
    [InlineData("\"system\":\"urn:s\"", "\"system\":[\"urn:s\"]")]
    [InlineData("\"system\":\"urn:s\",", "")]
    [InlineData(",\"code\":\"open\"", "")]
    [InlineData("\"code\":\"open\"", "\"code\":5")]
    [InlineData("\"code\":\"open\"", "\"code\":\"open\",\"_code\":{\"id\":\"x\"}")]
    [InlineData("\"code\":\"open\"", "\"code\":\"open\",\"userSelected\":true")]
    [InlineData("\"code\":\"open\"", "\"code\":\"open\",\"extension\":[{\"url\":\"urn:e\",\"valueBoolean\":true}]")]
    [InlineData("\"coding\":[", "\"coding\":{},\"x\":[")]
    [InlineData("\"coding\":[", "\"coding\":[],\"x\":[")]
    [InlineData("\"coding\":[", "\"coding\":[[]],\"x\":[")]
    [InlineData("\"valueCodeableConcept\":{", "\"valueString\":\"x\",\"valueCodeableConcept\":{")]
    public void A_coding_that_does_not_say_it_all_is_left_alone(string old, string put)
    {
        Assert.Null(OrderEdit.SetCoding(Bytes(Order.Replace(old, put, StringComparison.Ordinal)), 2, new CardCoding("urn:s", "closed", "Closed")));
        Assert.NotNull(OrderEdit.SetCoding(Bytes(Order), 2, new CardCoding("urn:s", "closed", "Closed")));
    }

    [Fact]
    public void A_number_is_changed_where_it_is()
    {
        Assert.Equal(Order.Replace("16.0", "10", StringComparison.Ordinal), Text(OrderEdit.SetNumber(Bytes(Order), 0, 10m)));
        Assert.Equal(Order.Replace("1.80e2", "120", StringComparison.Ordinal), Text(OrderEdit.SetNumber(Bytes(Order), 1, 120m)));
        Assert.All((int[])[-1, 2, 3, 4], parameter => Assert.Null(OrderEdit.SetNumber(Bytes(Order), parameter, 10m)));
    }

    [Fact]
    public void A_truth_is_changed() => Assert.Equal(Order.Replace("true", "false", StringComparison.Ordinal), Text(OrderEdit.SetBoolean(Bytes(Order), 3, false)));

    [Fact]
    public void Each_change_is_one_element_of_the_tree()
    {
        Assert.Equal(["parameter[0].valueQuantity.value"], Differences(Order, OrderEdit.SetQuantity(Bytes(Order), 0, 10m)));
        Assert.Equal(["parameter[1].valueRange.high.value"], Differences(Order, OrderEdit.SetRangeHigh(Bytes(Order), 1, 120m)));
        Assert.Equal(["parameter[3].valueBoolean"], Differences(Order, OrderEdit.SetBoolean(Bytes(Order), 3, false)));
        Assert.Equal(
            (string[])["parameter[2].valueCodeableConcept.coding[0].display", "parameter[2].valueCodeableConcept.coding[0].code", "parameter[2].valueCodeableConcept.text"],
            Differences(Order, OrderEdit.SetCoding(Bytes(Order), 2, Closed)), StringComparer.Ordinal);
    }

    [Fact]
    public void Each_changed_order_is_a_resource_of_R4()
    {
        var changed = new[]
        {
            OrderEdit.SetQuantity(Bytes(Order), 0, 10m), OrderEdit.SetRangeHigh(Bytes(Order), 1, 120m), OrderEdit.SetCoding(Bytes(Order), 2, Closed),
            OrderEdit.SetBoolean(Bytes(Order), 3, false),
        };

        Assert.All(changed, order => Assert.IsType<DomainResource>(FhirJsonDeserializer.STRICT.DeserializeResource(Text(order)!), exactMatch: false));
    }

    [Theory]
    [InlineData("\"value\":16.0", "\"value\":\"16.0\"")]
    [InlineData("\"value\":16.0", "\"value\":null")]
    [InlineData("\"value\":16.0", "\"comparator\":\">=\",\"value\":16.0")] // a lower bound
    [InlineData("\"value\":16.0", "\"_value\":{\"id\":\"x\"},\"value\":16.0")]
    [InlineData("\"value\":16.0", "\"value\":16.0,\"value\":18")]
    [InlineData("\"value\":16.0,", "")]
    [InlineData("\"valueQuantity\":{", "\"valueInteger\":1,\"valueQuantity\":{")]
    [InlineData("\"valueQuantity\":{", "\"_valueQuantity\":{},\"valueQuantity\":{")]
    [InlineData("\"valueQuantity\":{", "\"modifierExtension\":[{\"url\":\"urn:m\",\"valueBoolean\":true}],\"valueQuantity\":{")]
    [InlineData("\"valueQuantity\":", "\"valueQuantityX\":")]
    [InlineData("\"valueQuantity\":{", "\"x\":[{\"value\":16.0}],\"valueQuantity\":[{")]
    [InlineData("\"DeviceRequest\"", "\"ServiceRequest\"")]
    [InlineData("\"note\":", "\"note\":[],\"note\":")]
    [InlineData("\"note\":", "\"note\"")]
    public void A_number_that_does_not_say_what_is_meant_is_left_alone(string old, string put)
    {
        Assert.Null(OrderEdit.SetQuantity(Bytes(Order.Replace(old, put, StringComparison.Ordinal)), 0, 10m));
        Assert.NotNull(OrderEdit.SetQuantity(Bytes(Order), 0, 10m));
    }

    [Fact]
    public void An_upper_bound_stays_one() => Assert.Contains(
        "\"comparator\":\"<=\",\"value\":10,", Text(OrderEdit.SetQuantity(Bytes(Order.Replace("\"value\":16.0", "\"comparator\":\"<=\",\"value\":16.0", StringComparison.Ordinal)), 0, 10m)), StringComparison.Ordinal);

    [Fact]
    public void The_upper_end_is_never_set_under_the_lower()
    {
        Assert.Null(OrderEdit.SetRangeHigh(Bytes(Order), 1, 80.4m));
        Assert.NotNull(OrderEdit.SetRangeHigh(Bytes(Order), 1, 80.5m));
        Assert.NotNull(OrderEdit.SetRangeHigh(Bytes(Order.Replace(",\"low\":{\"value\":80.50,\"unit\":\"mmHg\"}", "", StringComparison.Ordinal)), 1, 1m));
    }

    [Fact]
    public void What_is_not_there_or_of_another_kind_is_not_changed()
    {
        var order = Bytes(Order);
        Assert.Null(OrderEdit.SetQuantity(order, 1, 10m));
        Assert.Null(OrderEdit.SetQuantity(order, 4, 10m));
        Assert.Null(OrderEdit.SetQuantity(order, -1, 10m));
        Assert.Null(OrderEdit.SetRangeHigh(order, 0, 10m));
        Assert.Null(OrderEdit.SetRangeHigh(Bytes(Order.Replace("\"high\":", "\"low2\":", StringComparison.Ordinal)), 1, 120m));
        Assert.Null(OrderEdit.SetCoding(order, 0, Closed));
        Assert.Null(OrderEdit.SetCoding(Bytes(Order.Replace("\"coding\":", "\"x\":", StringComparison.Ordinal)), 2, Closed));
        Assert.Null(OrderEdit.SetBoolean(order, 2, true));
        Assert.Null(OrderEdit.SetBoolean(Bytes(Order.Replace(":true", ":\"true\"", StringComparison.Ordinal)), 3, false));
        Assert.Null(OrderEdit.SetCoding(Bytes(Service), 0, Closed));
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{")]
    [InlineData("""{"resourceType":"DeviceRequest","parameter":{}}""")]
    [InlineData("""{"resourceType":"DeviceRequest","parameter":[null]}""")]
    [InlineData("""{"resourceType":"DeviceRequest","parameter":[{"valueQuantity":{}}]}""")]
    [InlineData("""{"resourceType":"DeviceRequest","parameter":[{"valueQuantity":5}]}""")]
    public void No_bytes_make_it_throw(string order)
    {
        Assert.Null(OrderEdit.SetQuantity(Bytes(order), 0, 10m));
        Assert.Null(OrderEdit.SetRangeHigh(Bytes(order), 0, 10m));
        Assert.Null(OrderEdit.SetCoding(Bytes(order), 0, Closed));
        Assert.Null(OrderEdit.SetBoolean(Bytes(order), 0, true));
    }

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    private static string? Text(ReadOnlyMemory<byte>? bytes) => bytes is { } some ? Ask.Text(some) : null;

    private static List<string> Differences(string order, ReadOnlyMemory<byte>? changed)
    {
        var found = new List<string>();
        Compare(JsonNode.Parse(order), JsonNode.Parse(Text(changed)!), "", found);
        return found;
    }

    // Numbers as written: 1.50 is not 1.5.
    private static void Compare(JsonNode? one, JsonNode? other, string path, List<string> found)
    {
        if (one is JsonObject members && other is JsonObject others)
        {
            foreach (var name in members.Select(member => member.Key).Union(others.Select(member => member.Key), StringComparer.Ordinal))
            {
                Compare(members[name], others[name], path.Length == 0 ? name : $"{path}.{name}", found);
            }
        }
        else if (one is JsonArray items && other is JsonArray otherItems && items.Count == otherItems.Count)
        {
            for (var i = 0; i < items.Count; i++)
            {
                Compare(items[i], otherItems[i], FormattableString.Invariant($"{path}[{i}]"), found);
            }
        }
        else if (one?.ToJsonString() != other?.ToJsonString())
        {
            found.Add(path);
        }
    }
}
